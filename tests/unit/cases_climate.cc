// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "cases/case/humid_air.h"
#include "cases/read/read_case.h"
#include "cases/show/to_text.h"
#include "cases/text/error.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>

namespace
{
using namespace overbend::cases;

constexpr double hour = 3600, day = 86400, year = 31557600;

Case electric(const std::string &more)
{
  return parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + more,
                    OVERBEND_SOURCE_DIR "/cases/test.toml");
}

std::string phase(const std::string &kind, const std::string &more)
{
  return "[[phase]]\nkind = \"" + kind + "\"\nduration = \"30 days\"\n" + more;
}

std::string refusal(const std::string &table, bool repeats = true)
{
  Climate climate;
  climate.repeats = repeats;
  try {
    parse_climate(table, "air.csv", climate);
  } catch (const CaseError &error) {
    return error.what();
  }
  return "accepted";
}

// Source: vapour pressure over water from steam tables [M]: 611.66 Pa at 0.01 degC, 2339 Pa at
// 20 degC, 12352 Pa at 50 degC. Held to 0.2 %.
TEST(HumidAir, VapourPressureFollowsTheSteamTables)
{
  for (const auto &[celsius, pressure] :
       {std::pair(0.01, 611.66), std::pair(20., 2339.), std::pair(50., 12352.)}) {
    const double got = saturation_pressure(celsius + 273.15);
    EXPECT_NEAR(got, pressure, 0.002 * pressure);
    overbend::tests::report("Saturated vapour by the formula of Hyland and Wexler",
                            "pressure at " + std::to_string(int(celsius)) + " degC, Pa",
                            "steam tables [M]", pressure, got, 0.002 * pressure);
  }
}

TEST(HumidAir, AirAtItsDewPointIsSaturatedAndWarmedAirIsDry)
{
  EXPECT_DOUBLE_EQ(humidity_at(290, 290), 1);
  EXPECT_LT(humidity_at(300, 290), 0.6);
  const double warmed = humidity_after(0.5, 294.15, 321.15);
  EXPECT_LT(warmed, 0.13); // 50 % at 21 degC is about 11 % at 48 degC
  EXPECT_GT(warmed, 0.09);
  EXPECT_NEAR(humidity_after(warmed, 321.15, 294.15), 0.5, 1e-12);
  EXPECT_EQ(humidity_after(0.9, 294.15, 280.15), 1); // the rest condenses
}

TEST(Air, TheRoomMayBeGivenByItsDewPoint)
{
  const Case dewy = electric("[room]\ntemperature = \"21 degC\"\ndew_point = \"10 degC\"\n");
  EXPECT_DOUBLE_EQ(dewy.room.humidity, humidity_at(294.15, 283.15));
}

TEST(Air, APhaseByDewPointAndOneThatIsOnlyWarmed)
{
  const Case result =
      electric(phase("store", "air_temperature = \"30 degC\"\n"
                              "dew_point = \"20 degC\"\n") +
               phase("store", "air_temperature = \"45 degC\"\n") +
               phase("store", "air_temperature = \"45 degC\"\nhumidity = \"50 %\"\n"));
  EXPECT_DOUBLE_EQ(result.phases[0].air.humidity, humidity_at(303.15, 293.15));
  EXPECT_NEAR(result.phases[1].air.humidity, humidity_at(318.15, 293.15), 1e-12);
  EXPECT_DOUBLE_EQ(result.phases[2].air.humidity, 0.5);
}

TEST(Climate, TheMonthsHoldInTheirMiddlesAndTheYearComesAgain)
{
  const Case result =
      electric("[climate]\njanuary = \"19 degC, 30 %\"\ndecember = \"18 degC, 40 %\"\n"
               "march = \"50 degF, 60 %\"\n" +
               phase("play", "") + phase("play", "month = \"december\"\n"));
  const Phase &january = result.phases[0], &december = result.phases[1];
  const double month = year / 12;
  EXPECT_NEAR(air_at(january, 0.5 * month).humidity, 0.30, 1e-12);
  EXPECT_NEAR(air_at(january, 2.5 * month).temperature, 283.15, 1e-9);
  EXPECT_NEAR(air_at(january, 0).humidity, 0.35, 1e-12); // between December and January
  EXPECT_NEAR(air_at(january, year).humidity, 0.35, 1e-9);
  EXPECT_NEAR(air_at(january, 11.75 * month).humidity, 0.375, 1e-9);
  for (const double t : {0.1 * month, 3.3 * month, 11.9 * month}) {
    EXPECT_NEAR(air_at(january, t).humidity, air_at(january, t + 7 * year).humidity, 1e-9);
    EXPECT_NEAR(air_at(january, t).humidity, air_at(december, t + month).humidity, 1e-9);
  }
  // The phase's own air is that of its first moment.
  EXPECT_DOUBLE_EQ(january.air.humidity, air_at(january, 0).humidity);
}

TEST(Climate, AfterPlayTheInstrumentIsBackInTheShop)
{
  const Case result = electric(phase("play", "") + phase("rest", ""));
  EXPECT_EQ(result.phases[1].air.humidity, result.room.humidity);
  EXPECT_EQ(result.phases[1].air.temperature, result.room.temperature);
  EXPECT_TRUE(result.phases[1].climate.points.empty());
}

TEST(Climate, TheUsualJobMayEndWithSomeMonthsOfPlay)
{
  const Case result = electric("[schedule]\nplay = \"240 days\"\nmonth = \"october\"\n");
  const Phase &play = result.phases.back();
  EXPECT_EQ(play.kind, PhaseKind::play);
  EXPECT_TRUE(play.strings);
  EXPECT_NEAR(air_at(play, year / 24).humidity, result.year[9].humidity, 1e-12);
  EXPECT_NE(electric("").phases.back().kind, PhaseKind::play);
}

TEST(Climate, AnHourlyWeekComesFromATable)
{
  const Case result = electric(phase("play", "climate_file = \"car-and-stage.csv\"\n"));
  const Phase &week = result.phases[0];
  ASSERT_EQ(week.climate.points.size(), 169u);
  EXPECT_DOUBLE_EQ(week.climate.period, 7 * day);
  EXPECT_DOUBLE_EQ(air_at(week, 2 * day + 21 * hour).humidity, 0.63); // on stage
  EXPECT_NEAR(air_at(week, 2 * day + 17.5 * hour).temperature, 303.65, 1e-9);
  EXPECT_NEAR(air_at(week, 23 * day + 21 * hour).humidity, 0.63, 1e-9); // in the fourth week
}

TEST(Climate, ATableMayHoldDewPointsAndOtherUnitsAndEnd)
{
  Climate climate;
  climate.repeats = false;
  parse_climate("# logged\nTemperature [degF], time [days], dew point [degC]\n\n"
                "68, 5, 10\n86, 7, 10\n",
                "air.csv", climate);
  ASSERT_EQ(climate.points.size(), 2u);
  EXPECT_DOUBLE_EQ(climate.points[1].time, 2 * day); // counted from the first row
  EXPECT_NEAR(climate.points[0].humidity, humidity_at(293.15, 283.15), 1e-12);
  Phase phase;
  phase.climate = climate;
  EXPECT_NEAR(air_at(phase, 1 * day).temperature, 298.15, 1e-9);
  EXPECT_NEAR(air_at(phase, 9 * day).temperature, 303.15, 1e-9); // stays at the last
}

TEST(Climate, ATableIsRefusedWithFileAndLine)
{
  const std::string head = "time [h], temperature [degC], humidity [%]\n";
  EXPECT_EQ(refusal("time, temperature [degC], humidity [%]\n"),
            "air.csv:1: the column \"time\" has no unit; write it in brackets, such as time [h], "
            "temperature [degC], humidity [%]");
  EXPECT_EQ(refusal("time [h], temprature [degC], humidity [%]\n"),
            "air.csv:1: there is no column \"temprature\"; did you mean \"temperature\"?");
  EXPECT_EQ(refusal("time [h], temperature [degC]\n"),
            "air.csv:1: the table has neither humidity nor dew point; give one of the two");
  EXPECT_EQ(refusal("time [h], temperature [degC], humidity [%], dew point [degC]\n"),
            "air.csv:1: the table has humidity and dew point; give one of the two");
  EXPECT_EQ(refusal(head + "0, 20, 40\n1, 20\n"),
            "air.csv:3: the row has 2 values, not 3; write one for each column, with a comma "
            "between and a decimal point");
  EXPECT_EQ(refusal(head + "0, 20, 40\n# warm\n0, 21, 40\n"),
            "air.csv:4: the time does not grow; sort the rows by time, each time once");
  EXPECT_EQ(refusal(head + "0, 20, 140\n"),
            "air.csv:2: the humidity is out of range; it must lie between 2 and 100 %");
  EXPECT_EQ(refusal(head + "0, 20, 40\n"),
            "air.csv:2: the table has fewer than two rows; give the air at two times at least");
  EXPECT_EQ(refusal(""),
            "air.csv: the table has fewer than two rows; give the air at two times at least");
  EXPECT_EQ(refusal(head + "0, 20, 40\n1, 20, 50\n"),
            "air.csv:3: the table is to repeat, but ends in other air than it begins; add a last "
            "row with the air of the first, or write climate_repeats = false");
  EXPECT_EQ(refusal(head + "0, 20, 40\n1, 20, 50\n", false), "accepted");
}

TEST(Climate, ATableThatIsTooShortIsRefused)
{
  try {
    electric(phase("play", "climate_file = \"car-and-stage.csv\"\nclimate_repeats = false\n"));
    FAIL();
  } catch (const CaseError &error) {
    EXPECT_EQ(error.line, 7);
    EXPECT_EQ(error.problem, "the table ends after 7 days, but the phase lasts 30 days");
  }
}

// A year that ends in the middle of March, and half a year that does.
TEST(PastAir, MonthsEndInTheMiddleOfTheOneNamed)
{
  for (const char *lived : {"1 year", "5 years", "100 days"}) {
    const Case result = electric("[moisture]\nclimate_to = \"march\"\nlived_for = \"" +
                                 std::string(lived) + "\"\n");
    Phase past;
    past.climate = result.moisture.past;
    const double end = result.moisture.lived_for;
    EXPECT_NEAR(air_at(past, end).humidity, result.year[2].humidity, 1e-9) << lived;
    EXPECT_NEAR(air_at(past, end - year / 12).humidity, result.year[1].humidity, 1e-9) << lived;
    EXPECT_NEAR(air_at(past, end - 3 * year / 12).humidity, result.year[11].humidity, 1e-9)
        << lived;
    const std::string printed = to_text(result);
    const Case again = parse_case(printed, "printed");
    EXPECT_EQ(to_text(again), printed);
    ASSERT_EQ(again.moisture.past.points.size(), 12u);
    EXPECT_EQ(again.moisture.past.points[5].time, result.moisture.past.points[5].time);
  }
}

TEST(PastAir, ATableIsReadFromBesideTheCase)
{
  const Case result = electric("[moisture]\nclimate_file = \"car-and-stage.csv\"\n");
  EXPECT_NEAR(result.moisture.past.points.back().time, 7 * day, 1);
  EXPECT_EQ(result.moisture.past.period, 0);
  const std::string printed = to_text(result);
  const Case again = parse_case(printed, OVERBEND_SOURCE_DIR "/cases/printed.toml");
  EXPECT_EQ(to_text(again), printed);
  EXPECT_EQ(again.moisture.past.points.size(), result.moisture.past.points.size());
  EXPECT_TRUE(electric("").moisture.past.points.empty());
}

// Five hours in the middle of each week, with the month's water; the months alone the rest of it.
TEST(HotEvenings, AreInTheAirOfTheMonthsOnceAWeek)
{
  const std::string play = phase("play", "");
  const Case cool = electric(play), hot = electric("[climate]\nhot_hours_a_week = \"5 h\"\n"
                                                   "hot_temperature = \"38 degC\"\n" +
                                                   play);
  const Phase &plain = cool.phases[0], &warm = hot.phases[0];
  double hours = 0;
  for (double t = 0; t < 28 * day; t += hour / 4) {
    const Air a = air_at(plain, t), b = air_at(warm, t);
    hours += (b.temperature - a.temperature) / (273.15 + 38 - a.temperature) / 4;
    EXPECT_NEAR(b.humidity, humidity_after(a.humidity, a.temperature, b.temperature), 1e-12);
  }
  EXPECT_NEAR(hours, 4 * 5, 0.01);
  EXPECT_NEAR(air_at(warm, 3.5 * day).temperature, 273.15 + 38, 1e-9);
  EXPECT_NEAR(air_at(warm, 3.5 * day + 3 * hour).temperature,
              air_at(plain, 3.5 * day + 3 * hour).temperature, 1e-9);
  // A table of the air tells its hot hours itself.
  EXPECT_EQ(electric("[climate]\nhot_hours_a_week = \"5 h\"\n" +
                     phase("play", "climate_file = \"car-and-stage.csv\"\n"))
                .phases[0]
                .climate.hot_hours,
            0);
}
// As spreadsheets write it, where the comma is the decimal one.
TEST(ClimateTable, SemicolonsGoWithDecimalCommasAndAByteOrderMarkIsSkipped)
{
  Climate climate;
  climate.repeats = false;
  parse_climate("\xEF\xBB\xBF\"time [h]\";\"temperature [degC]\";\"humidity [%]\"\r\n"
                "0;20,5;45,5\r\n1,5;21.25;40\r\n",
                "air.csv", climate);
  ASSERT_EQ(climate.points.size(), 2u);
  EXPECT_DOUBLE_EQ(climate.points[0].temperature, 273.15 + 20.5);
  EXPECT_DOUBLE_EQ(climate.points[0].humidity, 0.455);
  EXPECT_DOUBLE_EQ(climate.points[1].time, 1.5 * hour);
  EXPECT_DOUBLE_EQ(climate.points[1].temperature, 273.15 + 21.25);
}

TEST(ClimateTable, DecimalCommasBetweenCommasAreNamed)
{
  EXPECT_EQ(refusal("time [h],temperature [degC],humidity [%]\n0,0,20,5,45,0\n", false),
            "air.csv:2: the row has 6 values, not 3, are these decimal commas?; write decimal "
            "points, or put semicolons between the values");
}

TEST(ClimateTable, AnotherEncodingIsASentenceWithItsLine)
{
  const std::string head = "time [h],temperature [degC],humidity [%]\n";
  EXPECT_EQ(refusal(head + "# caf\xE9\n0,20,45\n", false),
            "air.csv:2: the line holds bytes that are not UTF-8; save it as plain text in UTF-8");
  EXPECT_EQ(refusal("\xFF\xFEt", false),
            "air.csv:1: the file is written in UTF-16; save it as plain text in UTF-8");
  EXPECT_EQ(refusal(head + std::string("0,2\0,45\n", 8), false),
            "air.csv:2: the line holds a zero byte, so this is not a text file; save it as plain "
            "text in UTF-8");
}

TEST(ClimateTable, WhatACellHoldsIsShownAndNotObeyedInTheSentence)
{
  const std::string head = "time [h],temperature [degC],humidity [%]\n";
  const std::string said = refusal(head + "0,\x1B[31m20,45\n", false);
  EXPECT_EQ(said.find('\x1B'), std::string::npos);
  EXPECT_NE(said.find("\\x1b[31m20"), std::string::npos) << said;
  EXPECT_LT(refusal(head + "0," + std::string(500000, '2') + ",45\n", false).size(), 300u);
}
} // namespace
