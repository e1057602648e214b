// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "tests/claims.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

// Weeks with one hot evening each, told in means over a week against the same by the hour.
//
// Known miss: 0.17 mm for 0.15 mm. What the line slips is told within a hundredth of a millimetre.
// The rest is the skin, which swings between 2 and 9 % of moisture while the strings pull: its
// travel is the same to a hundredth (0.100 for 0.101 in the mean over the nodes), but the means let
// it creep as compliantly and loaded as it is on average (0.058 for 0.040 mm of bow by the
// strings), and leave out what its own stresses bend (0.006 for 0.016 mm backward; both with epoxy,
// which does not slip).
namespace overbend::tests
{
namespace
{
constexpr double hour = 3600, day = 24 * hour;
constexpr unsigned weeks = 5;

// A phase of the months with five hours a week at 50 degC, strung.
cases::Phase weeks_with_hot_evenings(const GuardNeck &neck)
{
  cases::Case c = neck.c;
  c.hot_evenings = {5 * hour, 273.15 + 50};
  cases::Phase phase;
  phase.kind = cases::PhaseKind::play;
  phase.name = "play";
  phase.duration = weeks * 7 * day;
  phase.air = neck.c.room;
  phase.strings = true;
  phase.climate = cases::indoor_climate(c, 4);
  return phase;
}

// Cut so that each hot evening lies in a day that is followed by the quarter of an hour, in which
// the air gets hot and cools; the rest of the week has no hours to follow.
std::vector<cases::Phase> by_the_hour(const cases::Phase &whole)
{
  std::vector<cases::Phase> pieces;
  const auto add = [&](double from, double to, double spacing) {
    cases::Phase piece = whole;
    piece.name = std::to_string(pieces.size());
    piece.duration = to - from;
    piece.climate = {};
    for (double t = 0; t < piece.duration + 1; t += spacing) {
      const cases::Air air = cases::air_at(whole, from + t);
      piece.climate.points.push_back({t, air.temperature, air.humidity});
    }
    pieces.push_back(piece);
  };
  for (unsigned week = 0; week < weeks; ++week) {
    const double start = week * 7 * day;
    add(start, start + 3 * day, day);
    add(start + 3 * day, start + 4 * day, hour / 4);
    add(start + 4 * day, start + 7 * day, day);
  }
  return pieces;
}

struct Told
{
  double bow = 0; // growth from just after string-up till a day at home after it, m
  std::size_t steps = 0;
};

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
  return {history.phases.back().reading.bow - history.phases.front().reading_at_start.bow,
          history.steps.size()};
}
} // namespace

TEST(HotEvenings, ToldInWeeksGrowTheBowAsTheyDoByTheHour)
{
  GuardNeck neck;
  neck.c.numerics.bow_error = 0.002e-3;
  const cases::Phase whole = weeks_with_hot_evenings(neck);
  cases::Phase mild = whole;
  mild.climate.hot_hours = 0;
  const Told hours = run(neck, by_the_hour(whole)), told = run(neck, {whole}),
             without = run(neck, {mild});
  std::cout << "steps: by the hour " << hours.steps << ", in weeks " << told.steps << "\n";
  Claims claims("Five weeks with a hot evening each, strung", "the same model by the hour");
  const double made = 1e3 * (hours.bow - without.bow);
  claims.check("growth of the bow by the evenings, mm", made, 1e3 * (told.bow - without.bow),
               0.1 * made, 0.2 * made);
  claims.expect_misses(1);
  EXPECT_GT(made, 0.005) << "the evenings do something";
  EXPECT_LE(2 * told.steps, hours.steps);
}
} // namespace overbend::tests
