// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/claims.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <iostream>

// Days of air that changes by the hour, told in steps of days against steps of an hour.
namespace overbend::tests
{
namespace
{
constexpr double hour = 3600, day = 24 * hour;

cases::Phase played(const GuardNeck &neck, double duration)
{
  cases::Phase phase;
  phase.kind = cases::PhaseKind::play;
  phase.name = "play";
  phase.duration = duration;
  phase.air = neck.c.room;
  phase.strings = true;
  // At home, in a hot van, waiting, on stage, out into a cold night; each day the same.
  phase.climate =
      each_day({{0, 20.5, 0.45}, {16, 38, 0.22}, {18, 23, 0.52}, {20, 30, 0.63}, {23, 8, 0.7}});
  return phase;
}

struct Told
{
  double on_tour = 0, at_home = 0; // growth of the bow from just after string-up till then, m
  std::size_t steps = 0;
};

// Strung for an hour, then the phases, then a day at home.
Told run(GuardNeck &neck, std::vector<cases::Phase> phases)
{
  cases::Phase up = phases.front();
  up.kind = cases::PhaseKind::string_up;
  up.name = "string up";
  up.duration = hour;
  up.climate = {};
  cases::Phase home = up;
  home.kind = cases::PhaseKind::rest;
  home.name = "home";
  home.duration = day;
  phases.insert(phases.begin(), up);
  phases.push_back(home);
  const auto heat = solver::heat_of(neck.work, phases);
  const auto moisture = solver::moisture_of(neck.work, phases, heat);
  const auto history = neck.from_unstressed(phases, heat, moisture);
  const double from = history.phases.front().reading_at_start.bow;
  return {history.phases[history.phases.size() - 2].reading.bow - from,
          history.phases.back().reading.bow - from, history.steps.size()};
}
} // namespace

// Phases of two days are followed by the hour (solver/climate/air_series.h), one of four is told in
// days.
TEST(DaysOnTour, ToldInDaysGrowTheBowAsTheyDoByTheHour)
{
  GuardNeck neck;
  neck.c.numerics.bow_error = 0.002e-3;
  const Told hours = run(neck, {played(neck, 2 * day), played(neck, 2 * day)});
  const Told days = run(neck, {played(neck, 4 * day)});
  std::cout << "steps: by the hour " << hours.steps << ", in days " << days.steps << "\n";
  // A tenth is what is asked of both. Just after the cold night it is 9.5 %: there the bow told in
  // days is a running mean and that by the hour is of the moment.
  Claims tour("Four days on tour, strung", "the same model by the hour");
  const auto check = [&](const char *quantity, double hourly, double daily, double claimed) {
    tour.check(quantity, 1e3 * hourly, 1e3 * daily, 0.1 * 1e3 * hourly, claimed * 1e3 * hourly);
  };
  check("growth of the bow, mm, just after the last cold night", hours.on_tour, days.on_tour, 0.15);
  check("growth of the bow, mm, after a day at home", hours.at_home, days.at_home, 0.1);
  tour.expect_misses(0);
  EXPECT_LE(3 * days.steps, hours.steps);
}
} // namespace overbend::tests
