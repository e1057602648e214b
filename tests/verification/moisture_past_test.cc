// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

// The water in the neck before the first phase, by what is known of it.
namespace overbend::tests
{
namespace
{
constexpr double day = 86400, year = 365.25 * day, celsius = 273.15;

double rest(double humidity, double temperature = celsius + 20)
{
  return materials::equilibrium_moisture(temperature, humidity);
}

struct Span
{
  double low, high;
};

Span span_of(const std::vector<double> &moisture)
{
  const auto [low, high] = std::minmax_element(moisture.begin(), moisture.end());
  return {*low, *high};
}

solver::MoistureState start_of(const GuardNeck &neck)
{
  return solver::moisture_at_start(neck.work.model, neck.c);
}

// A past told as a table, all at 20 degC.
GuardNeck with_past(const std::vector<std::pair<double, double>> &time_and_humidity)
{
  cases::Case c = guard_case();
  for (const auto &[time, humidity] : time_and_humidity)
    c.moisture.past.points.push_back({time, celsius + 20, humidity});
  return GuardNeck(std::move(c));
}
} // namespace

TEST(StartingMoisture, IsWhatWasMeasured)
{
  const auto start = start_of(GuardNeck(guard_case("[moisture]\ncontent = \"5 %\"\n")));
  EXPECT_EQ(span_of(start.moisture).low, 0.05);
  EXPECT_EQ(span_of(start.moisture).high, 0.05);
  EXPECT_EQ(span_of(start.driest).high, 0.05); // below the kiln's
}

TEST(StartingMoisture, OfNothingKnownIsRestWithTheRoom)
{
  const auto start =
      start_of(GuardNeck(guard_case("[room]\ntemperature = \"20 degC\"\nhumidity = \"60 %\"\n")));
  EXPECT_NEAR(span_of(start.moisture).low, rest(0.6), 1e-12);
  EXPECT_NEAR(span_of(start.moisture).high, rest(0.6), 1e-12);
  EXPECT_EQ(span_of(start.driest).low, solver::kiln_moisture());
}

TEST(StartingMoisture, LivedForIsOnTheWayFromTheShopToTheAir)
{
  const std::string dry =
      "[moisture]\ntemperature = \"20 degC\"\nhumidity = \"15 %\"\nlived_for = ";
  const GuardNeck neck(guard_case(dry + "\"20 days\"\n"));
  const Span soon = span_of(start_of(neck).moisture),
             late = span_of(start_of(GuardNeck(guard_case(dry + "\"100 years\"\n"))).moisture);
  const double built = solver::built_moisture(neck.c);
  std::cout << "built at " << 100 * built << " %, after 20 days at 15 %: " << 100 * soon.low
            << " to " << 100 * soon.high << " %, after 100 years: " << 100 * late.low << " to "
            << 100 * late.high << " %\n";
  EXPECT_LT(soon.low, built - 0.01);
  EXPECT_GT(soon.high, rest(0.15) + 0.01);
  EXPECT_NEAR(late.low, rest(0.15), 5e-4);
  EXPECT_NEAR(late.high, rest(0.15), 5e-4);
}

TEST(PastAir, LongSteadyEndsAtRestWithIt)
{
  const GuardNeck neck = with_past({{0, 0.8}, {day, 0.4}, {30 * year, 0.4}});
  const Span end = span_of(start_of(neck).moisture);
  EXPECT_NEAR(end.low, rest(0.4), 5e-4);
  EXPECT_NEAR(end.high, rest(0.4), 5e-4);
}

TEST(PastAir, BeginsAtRestWithItsFirstAndStaysThereWhileNothingChanges)
{
  const GuardNeck neck = with_past({{0, 0.55}, {20 * day, 0.55}});
  const Span end = span_of(start_of(neck).moisture);
  EXPECT_NEAR(end.low, rest(0.55), 1e-5);
  EXPECT_NEAR(end.high, rest(0.55), 1e-5);
}

TEST(PastAir, AShortDrySpellDriesTheSkinAndNotTheCore)
{
  GuardNeck neck = with_past({{0, 0.55}, {day, 0.10}, {5 * day, 0.10}});
  neck.c.faces.board = {cases::Finish::bare, cases::FinishCondition::sound};
  const Span end = span_of(start_of(neck).moisture);
  std::cout << "after four days at 10 %: " << 100 * end.low << " to " << 100 * end.high << " %\n";
  EXPECT_LT(end.low, rest(0.55) - 0.01);
  EXPECT_GT(end.high, rest(0.55) - 1e-3);
}

// Damp again since: the skin remembers that it was drier than the kiln left it, the core does not,
// and the phases go on from there.
TEST(PastAir, TheDriestSoFarIsCarriedIntoTheHistory)
{
  GuardNeck neck =
      with_past({{0, 0.55}, {day, 0.05}, {30 * day, 0.05}, {31 * day, 0.55}, {150 * day, 0.55}});
  neck.c.faces.board = {cases::Finish::bare, cases::FinishCondition::sound};
  const auto start = start_of(neck);
  EXPECT_LT(span_of(start.driest).low, solver::kiln_moisture() - 0.01);
  EXPECT_GT(span_of(start.moisture).low, solver::kiln_moisture());
  EXPECT_EQ(start.time, 0);
  EXPECT_EQ(span_of(start.travel).high, 0);
  cases::Phase phase = neck.c.phases.front();
  phase.duration = day;
  phase.heater = false;
  const auto heat = solver::heat_of(neck.work, {phase});
  const auto history = solver::moisture_of(neck.work, {phase}, heat);
  EXPECT_EQ(history.driest(0), start.driest);
  EXPECT_EQ(span_of(history.driest(day)).low, span_of(start.driest).low);
}

// The months of a house that is dry in winter: in March drier than in September.
TEST(PastAir, TheMonthOfTheWorkCounts)
{
  const auto mean = [](const std::string &month) {
    const auto m =
        start_of(GuardNeck(guard_case("[moisture]\nclimate_to = \"" + month + "\"\n"))).moisture;
    double sum = 0;
    for (const double value : m)
      sum += value / double(m.size());
    return sum;
  };
  const double march = mean("march"), september = mean("september");
  std::cout << "mean moisture, %: March " << 100 * march << ", September " << 100 * september
            << "\n";
  EXPECT_LT(march, september - 0.005);
}
} // namespace overbend::tests
