// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/units.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace
{
using namespace overbend::cases;

std::string sentence(const std::string &text, Dimension dimension)
{
  try {
    parse_quantity(text, dimension);
  } catch (const UnitError &error) {
    return error.what();
  }
  return "";
}

double length(const std::string &text)
{
  return parse_quantity(text, Dimension::length);
}
double kelvin(const std::string &text)
{
  return parse_quantity(text, Dimension::temperature);
}

// Exact by definition: 1 in = 25.4 mm.
TEST(Units, LengthsOfTheTrade)
{
  EXPECT_DOUBLE_EQ(length("648 mm"), 0.648);
  EXPECT_DOUBLE_EQ(length("64.8cm"), 0.648);
  EXPECT_DOUBLE_EQ(length("0.648 m"), 0.648);
  EXPECT_DOUBLE_EQ(length("25.5 in"), 0.6477);
  EXPECT_DOUBLE_EQ(length("16 thou"), 16 * 25.4e-6);
  EXPECT_DOUBLE_EQ(length("0.040 in"), 40 * 25.4e-6);
  EXPECT_DOUBLE_EQ(length("-.5 mm"), -0.0005);
  EXPECT_DOUBLE_EQ(length("+1e1 mm"), 0.01);
}

TEST(Units, FractionsOfAnInch)
{
  EXPECT_DOUBLE_EQ(length("1/16 in"), 0.0254 / 16);
  EXPECT_DOUBLE_EQ(length("1 11/16 in"), 0.0254 * 27 / 16);
  EXPECT_DOUBLE_EQ(length("1-11/16 in"), 0.0254 * 27 / 16);
  EXPECT_DOUBLE_EQ(length("-1 1/2 in"), -0.0254 * 1.5);
}

// Kelvin and Fahrenheit scales by definition: 0 degC = 273.15 K, 212 degF = 100 degC.
TEST(Units, AbsoluteTemperaturesHaveAZeroPoint)
{
  EXPECT_DOUBLE_EQ(kelvin("0 degC"), 273.15);
  EXPECT_DOUBLE_EQ(kelvin("212 degF"), 373.15);
  EXPECT_DOUBLE_EQ(kelvin("-40 degF"), kelvin("-40 degC"));
  EXPECT_DOUBLE_EQ(kelvin("300 K"), 300);
  EXPECT_DOUBLE_EQ(kelvin("48 \u00b0C"), 321.15);
}

TEST(Units, TemperatureDifferencesHaveNone)
{
  EXPECT_DOUBLE_EQ(parse_quantity("5 degC", Dimension::temperature_difference), 5);
  EXPECT_DOUBLE_EQ(parse_quantity("5 K", Dimension::temperature_difference), 5);
  EXPECT_DOUBLE_EQ(parse_quantity("9 degF", Dimension::temperature_difference), 5);
}

// Exact by definition: kgf 9.80665 N; lbf 4.4482216152605 N.
TEST(Units, Forces)
{
  EXPECT_DOUBLE_EQ(parse_quantity("12 kgf", Dimension::force), 117.6798);
  EXPECT_DOUBLE_EQ(parse_quantity("1 lbf", Dimension::force), 4.4482216152605);
  EXPECT_DOUBLE_EQ(parse_quantity("150 N", Dimension::force), 150);
}

TEST(Units, Times)
{
  EXPECT_DOUBLE_EQ(parse_quantity("2 h", Dimension::time), 7200);
  EXPECT_DOUBLE_EQ(parse_quantity("25 min", Dimension::time), 1500);
  EXPECT_DOUBLE_EQ(parse_quantity("1 day", Dimension::time), 86400);
  EXPECT_DOUBLE_EQ(parse_quantity("2 weeks", Dimension::time), 1209600);
  EXPECT_DOUBLE_EQ(parse_quantity("1 year", Dimension::time), 365.25 * 86400);
}

TEST(Units, TheOthers)
{
  EXPECT_DOUBLE_EQ(parse_quantity("45 %", Dimension::fraction), 0.45);
  EXPECT_DOUBLE_EQ(parse_quantity("45 percent", Dimension::fraction), 0.45);
  EXPECT_DOUBLE_EQ(parse_quantity("180 deg", Dimension::angle), std::acos(-1.0));
  EXPECT_DOUBLE_EQ(parse_quantity("30 N/mm", Dimension::stiffness), 3e4);
  EXPECT_DOUBLE_EQ(parse_quantity("8 W/(m^2 K)", Dimension::conductance), 8);
  EXPECT_DOUBLE_EQ(parse_quantity("8 W/m2K", Dimension::conductance), 8);
  EXPECT_DOUBLE_EQ(parse_quantity("2 N/mm3", Dimension::bedding), 2e9);
  EXPECT_DOUBLE_EQ(parse_quantity("3 Nm", Dimension::torque), 3);
  EXPECT_DOUBLE_EQ(parse_quantity("10 GPa", Dimension::pressure), 1e10);
  EXPECT_DOUBLE_EQ(parse_quantity("110 Hz", Dimension::frequency), 110);
  EXPECT_DOUBLE_EQ(parse_quantity("1 N m/deg", Dimension::turning_stiffness),
                   180 / std::acos(-1.0));
}

TEST(Units, SlopeOfTheGrainThreeWays)
{
  EXPECT_DOUBLE_EQ(parse_quantity("5 %", Dimension::slope), 0.05);
  EXPECT_DOUBLE_EQ(parse_quantity("1 in 20", Dimension::slope), 0.05);
  EXPECT_DOUBLE_EQ(parse_quantity("45 deg", Dimension::slope), 1);
}

TEST(Units, AMissingUnitIsSaidWithTheUnitsAccepted)
{
  EXPECT_EQ(sentence("648", Dimension::length),
            "\"648\" has no unit; write a length with its unit (mm, cm, m, in or thou), such as "
            "\"648 mm\"");
}

TEST(Units, AnotherDimensionIsNamed)
{
  EXPECT_EQ(sentence("12 kgf", Dimension::length),
            "\"12 kgf\" is a force where a length is due; write a length with its unit (mm, cm, m, "
            "in or thou), such as \"0.5 mm\"");
  EXPECT_THAT(sentence("3 N m", Dimension::force), testing::HasSubstr("a torque where a force"));
  EXPECT_THAT(sentence("2 mm", Dimension::number), testing::HasSubstr("has a unit where"));
}

TEST(Units, AMisspeltUnitGetsTheRightOne)
{
  EXPECT_EQ(sentence("5 MM", Dimension::length),
            "\"5 MM\" has the unknown unit \"MM\"; did you mean \"mm\"?");
  EXPECT_EQ(sentence("5 degc", Dimension::temperature),
            "\"5 degc\" has the unknown unit \"degc\"; did you mean \"degC\"?");
  EXPECT_THAT(sentence("5 furlong", Dimension::length), testing::HasSubstr("unknown unit"));
}

TEST(Units, NotANumberIsRefused)
{
  for (const char *text : {"", " ", "mm", "nan mm", "inf mm", "-inf mm", "1e999 mm", "0x10 mm",
                           "1..2 mm", "--1 mm", "1/0 in", "1 2 mm", "1,5 mm"})
    EXPECT_NE(sentence(text, Dimension::length), "") << text;
  EXPECT_EQ(sentence("1,5 mm", Dimension::length),
            "\"1,5 mm\" has a comma in its number; write a decimal point");
  EXPECT_THAT(sentence("1e307 year", Dimension::time), testing::HasSubstr("not a finite number"));
  EXPECT_THAT(sentence("-300 degC", Dimension::temperature),
              testing::HasSubstr("below absolute zero"));
}

TEST(Units, BothUnitsOfTheTradeOnOneLine)
{
  EXPECT_EQ(both_lengths(0.24e-3), "0.24 mm (9.4 thou)");
  EXPECT_EQ(both_lengths(-0.3e-3), "-0.30 mm (-12 thou)");
  EXPECT_EQ(both_lengths(-1e-9), "0.00 mm (0.0 thou)");
  EXPECT_EQ(both_lengths(0.648), "648.0 mm (25.51 in)");
  EXPECT_EQ(both_temperatures(321.15), "48 degC (118 degF)");
  EXPECT_EQ(both_temperature_differences(5), "5 degC (9 degF)");
  EXPECT_EQ(all_forces(106), "106 N (10.8 kgf, 23.8 lbf)");
  EXPECT_EQ(degrees(0.6 * std::acos(-1.0) / 180), "0.60 deg");
}

TEST(Units, TheClock)
{
  EXPECT_EQ(clock(8700), "2 h 25 min");
  EXPECT_EQ(clock(40), "40 s");
  EXPECT_EQ(clock(59.7), "1 min");
  EXPECT_EQ(clock(7200), "2 h");
  EXPECT_EQ(clock(6 * 86400 + 23 * 3600), "6 days 23 h");
  EXPECT_EQ(clock(20 * 31557600.0), "20.0 years");
  EXPECT_EQ(clock(-60), "-1 min");
}

TEST(Units, ExactTextIsShort)
{
  EXPECT_EQ(exact_text(0.648, Dimension::length), "648 mm");
  EXPECT_EQ(exact_text(330.15, Dimension::temperature), "57 degC");
  EXPECT_EQ(exact_text(0.45, Dimension::fraction), "45 %");
  EXPECT_EQ(exact_text(1500, Dimension::time), "25 min");
  EXPECT_EQ(exact_text(2.2, Dimension::number), "2.2");
}

TEST(Units, ShortTextIsForRangesInWords)
{
  EXPECT_EQ(short_text(7200, Dimension::time), "2 h");
  EXPECT_EQ(short_text(86400, Dimension::time), "1 day");
  EXPECT_EQ(short_text(14 * 86400, Dimension::time), "2 weeks");
  EXPECT_EQ(short_text(90, Dimension::time), "90 s");
  EXPECT_EQ(short_text(25 * std::acos(-1.0) / 180, Dimension::angle), "25 deg");
  EXPECT_EQ(short_text(0.35, Dimension::length), "350 mm");
}

TEST(Units, ExactTextReadsBackToTheLastBit)
{
  std::mt19937_64 generator(20240607);
  std::uniform_real_distribution<double> exponent(-9, 9);
  for (const Dimension dimension :
       {Dimension::number, Dimension::fraction, Dimension::slope, Dimension::length,
        Dimension::angle, Dimension::time, Dimension::temperature,
        Dimension::temperature_difference, Dimension::force, Dimension::stiffness,
        Dimension::turning_stiffness, Dimension::bedding, Dimension::power, Dimension::conductance,
        Dimension::water_resistance, Dimension::pressure, Dimension::torque, Dimension::frequency})
    for (int i = 0; i < 300; ++i) {
      const double value = std::pow(10, exponent(generator));
      EXPECT_EQ(parse_quantity(exact_text(value, dimension), dimension), value)
          << exact_text(value, dimension);
    }
}
} // namespace
