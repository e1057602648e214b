// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/damp_air.h"
#include "solver/climate/air_series.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>

// Air that changes while a phase lasts.
namespace overbend::tests
{
namespace
{
constexpr double hour = 3600, day = 24 * hour, kelvin = 273.15;

// Three hours a day at 50 degC, else 20 degC, in straight lines between full hours.
cases::Phase hot_days(double duration)
{
  cases::Phase phase;
  phase.duration = duration;
  phase.climate.period = day;
  for (unsigned h = 0; h <= 24; ++h)
    phase.climate.points.push_back({h * hour, kelvin + (h >= 12 && h < 15 ? 50. : 20.), 0.5});
  return phase;
}
} // namespace

// dT/dt = (A + B t - T)/lag: T = A + B (t - lag) + (T0 - A + B lag) exp(-t/lag).
TEST(ChangingAir, TheNeckLagsBehindARampAsTheClosedFormSays)
{
  cases::Phase phase;
  phase.duration = 6 * hour;
  phase.climate.points = {{0, 290, 0.5}, {6 * hour, 314, 0.5}};
  const double lag = 2400, start = 300, B = 24 / (6 * hour);
  const solver::AirSeries series(phase, 100, lag, start);
  for (const double t : {0.5 * hour, 1. * hour, 3. * hour}) {
    const double exact = 290 + B * (t - lag) + (start - 290 + B * lag) * std::exp(-t / lag);
    report("Neck as one lump behind a ramp of the air", "temperature, K",
           "closed form of a first-order lag", exact, series.shown(100 + t), 0.05);
    EXPECT_NEAR(series.shown(100 + t), exact, 0.05);
  }
}

// Over days, the mean of the creep shift is that of the true course: far above the shift at the
// mean temperature. Without lag the course is known: per day 2 h at 50, 22 - 2 h at 20 degC and two
// ramps of an hour.
TEST(ChangingAir, TheShiftIsAveragedOverTheCourseAndNotTakenAtTheMean)
{
  const solver::AirSeries series(hot_days(7 * day), 0, 1, kelvin + 20);
  ASSERT_TRUE(series.in_days());
  const auto shift = [](double T, double) { return std::exp(-12000 * (1 / T - 1 / 293.15)); };
  double ramp = 0;
  for (unsigned k = 0; k < 1000; ++k)
    ramp += shift(kelvin + 20 + 30 * (k + 0.5) / 1000, 0) / 1000;
  const double exact = (2 * shift(kelvin + 50, 0) + 20 * shift(kelvin + 20, 0) + 2 * ramp) / 24;
  const double got = series.mean(2 * day, 3 * day, shift);
  report("Seven hot days", "mean creep shift", "integral of the course", exact, got, 0.02 * exact);
  EXPECT_NEAR(got / exact, 1, 0.02);
  EXPECT_GT(got, 1.5 * shift(series.shown(3 * day), 0));
  EXPECT_NEAR(series.shown(3 * day), kelvin + 20 + 30. * 3 / 24, 0.3);
}

TEST(ChangingAir, AShortPhaseFollowsItsHours)
{
  const solver::AirSeries series(hot_days(1 * day), 0, 1, kelvin + 20);
  EXPECT_FALSE(series.in_days());
  EXPECT_NEAR(series.shown(13 * hour), kelvin + 50, 0.5);
  EXPECT_NEAR(series.shown(3 * hour), kelvin + 20, 0.5);
  EXPECT_DOUBLE_EQ(series.spacing(), hour);
}

// One evening of five hours a week at 45 degC in air of 20 degC: what is shown stays at the mean of
// the week, and the mean creep shift is that of the course: 4.75 h hot, two quarters of an hour
// between, the rest of 168 h cool. Sampled by the quarter of an hour: held to 3 %.
TEST(ChangingAir, AHotEveningAWeekCountsInAYearAndMovesNothingThatIsShown)
{
  cases::Phase phase;
  phase.duration = 365 * day;
  phase.climate.points = {{0, kelvin + 20, 0.5}, {phase.duration, kelvin + 20, 0.5}};
  phase.climate.hot_hours = 5 * hour;
  phase.climate.hot_temperature = kelvin + 45;
  const solver::AirSeries series(phase, 0, 1, kelvin + 20);
  ASSERT_TRUE(series.in_days());
  EXPECT_TRUE(series.swings());
  EXPECT_FALSE(series.breathes());
  const auto shift = [](double T, double) { return std::exp(-30000 * (1 / T - 1 / 293.15)); };
  double ramp = 0;
  for (unsigned k = 0; k < 1000; ++k)
    ramp += shift(kelvin + 20 + 25 * (k + 0.5) / 1000, 0) / 1000;
  const double exact = (4.75 * shift(kelvin + 45, 0) + 0.5 * ramp + 162.75) / 168;
  for (const double dt : {0., 1 * day, 7 * day, 28 * day}) {
    const double got = series.mean(100 * day, dt, shift);
    report("A hot evening a week", "mean creep shift over " + std::to_string(int(dt / day)) + " d",
           "integral of the course", exact, got, 0.03 * exact);
    EXPECT_NEAR(got / exact, 1, 0.03) << dt;
  }
  for (double t = 10 * day; t < 350 * day; t += 0.3 * day)
    EXPECT_NEAR(series.shown(t), kelvin + 20 + 25. * 5 / 168, 0.1) << t / day;
  // The same for two days, followed by the hour, has no evening yet; for four it has one.
  phase.duration = 4 * day;
  const solver::AirSeries days(phase, 0, 1, kelvin + 20);
  EXPECT_NEAR(days.mean(0, 4 * day, [](double T, double) { return T; }), kelvin + 20 + 25. * 5 / 96,
              0.05);
}
} // namespace overbend::tests
