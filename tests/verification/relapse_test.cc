// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

// What a straightened neck does after release: one plan of a coarse neck with heat, glue and
// moisture, and from its end of rest four ways of living on. All begin with the same state of wood
// and glue.
namespace overbend::tests
{
namespace
{
constexpr double hour = 3600, day = 24 * hour;
constexpr double bow_error = 0.002e-3; // m

// A bow and pull that two cords reach within their limit.
cases::Case straightened_case()
{
  cases::Case c = guard_case();
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.45e-3;
  c.found.twist = 0;
  return c;
}

// The neck at the end of rest after release, before any string.
struct Straightened
{
  GuardNeck neck;
  solver::Progress progress;
  std::vector<double> moisture;

  Straightened() : neck(straightened_case())
  {
    auto &work = neck.work;
    const auto heat = solver::heat_of(work, neck.c.phases);
    const auto water = solver::moisture_of(work, neck.c.phases, heat);
    const auto found = solver::find_start(work.neck(), work.found_strings, water.at(0));
    solver::PlanInput input = neck.input;
    input.moisture = &water;
    const auto plan = solver::make_plan(input, work, heat, found);
    EXPECT_TRUE(plan.on_target);

    std::vector<cases::Phase> phases = neck.c.phases;
    const auto strung = std::find_if(phases.begin(), phases.end(), [](const cases::Phase &p) {
      return p.kind == cases::PhaseKind::string_up;
    });
    phases.erase(strung, phases.end());
    double end = 0;
    for (cases::Phase &phase : phases) {
      end += phase.duration;
      if (phase.pull.kind == cases::Pull::Kind::to_reading) {
        phase.pull.bow = plan.setting.bow;
        phase.pull.twist = plan.setting.twist;
      }
    }
    solver::SimulationOptions options;
    options.bow_error = bow_error;
    options.moisture = &water;
    const auto history =
        solver::simulate(work.neck(), phases, work.planned_strings, heat, found.progress, options);
    progress = history.end;
    moisture = water.at(end);
    std::printf("found %.3f mm, set to %.3f mm, strung at the asked date %.3f mm of %.3f mm\n",
                1e3 * plan.diagnosis.found.bow, 1e3 * plan.setting.bow, 1e3 * plan.reached.bow,
                1e3 * plan.wanted.bow);
  }
};

// The neck of all tests here, made once.
Straightened &straightened()
{
  static Straightened neck;
  return neck;
}

// Growth of the bow (m) from just after the strings are on: weeks in the room or in other air, and
// then a week in the room for all, so that the last reading is taken in the same air. set: empty,
// no strings.
struct Air
{
  double time = 21 * day; // in it, before the week in the room
  cases::Climate climate; // no points: the room
};

double relapse(Straightened &after, const std::string &set, const Air &air)
{
  auto &neck = after.neck;
  auto &work = neck.work;
  cases::Phase phase = cases::Phase();
  phase.kind = cases::PhaseKind::play;
  phase.air = neck.c.room;
  phase.rod = neck.c.target.rod;
  phase.strings = !set.empty();
  std::vector<cases::Phase> phases(3, phase);
  phases[0].duration = hour;
  phases[1].duration = air.time;
  phases[2].duration = 7 * day;
  phases[1].climate = air.climate;
  for (unsigned k = 0; k < phases.size(); ++k)
    phases[k].name = std::to_string(k);

  const auto heat = solver::heat_of(work, phases);
  const auto water = solver::simulate_moisture(work.model, neck.c, phases, heat, after.moisture);
  solver::StringPull strings;
  if (!set.empty()) {
    const cases::Case c = guard_case("[strings]\nset = \"" + set + "\"\n");
    strings = solver::make_string_pull(c, c.strings, work.model, materials::tables(), 0);
  }
  solver::SimulationOptions options;
  options.bow_error = bow_error;
  options.moisture = &water;
  const auto history =
      solver::simulate(work.neck(), phases, strings, heat, after.progress, options);
  const double from = history.phases.front().reading_at_start.bow;
  double m0 = 0, m1 = 0;
  for (std::size_t i = 0; i < after.moisture.size(); ++i) {
    m0 += water.all().front().moisture[i] / after.moisture.size();
    m1 += water.all().back().moisture[i] / after.moisture.size();
  }
  std::printf("%-16s %.0f days %-9s %6.1f N: bow just after %.4f mm; gone on then %+.4f mm, a week "
              "later in the room %+.4f mm; moisture %.2f to %.2f %%; %zu steps\n",
              set.empty() ? "no strings" : set.c_str(), air.time / day,
              air.climate.points.empty() ? "room" : "changing", strings.total, 1e3 * from,
              1e3 * (history.phases[1].reading.bow - from),
              1e3 * (history.phases[2].reading.bow - from), 100 * m0, 100 * m1,
              history.steps.size());
  return history.phases[2].reading.bow - from;
}
} // namespace

TEST(StraightenedNeck, RelapsesMoreUnderHeavierStringsAndMoreStillOnAHotStage)
{
  const std::string nine = "electric 9-42", eleven = "electric 11-49";
  Straightened &after = straightened();
  const Air room;
  // Each day at home, in a hot car, waiting, on a hot stage.
  const Air tour{21 * day,
                 each_day({{0, 21, 0.45}, {16, 38, 0.25}, {18, 23, 0.5}, {20, 34, 0.55}})};
  const double slack = relapse(after, "", room), light = relapse(after, nine, room),
               heavy = relapse(after, eleven, room), hot = relapse(after, eleven, tour);
  EXPECT_LT(slack, light);
  EXPECT_LT(light, heavy);
  EXPECT_LT(heavy, hot);
  // The evenings leave the wood a little drier: what that bows is in a twin without strings.
  const double slack_and_hot = relapse(after, "", tour);
  EXPECT_LT(heavy - slack, hot - slack_and_hot);
}

// A year of the months of [climate], and the same with one evening of five hours a week at 45 degC:
// told in weeks, with the mean of the rates.
TEST(StraightenedNeck, RelapsesMoreInAYearWithHotEveningsAndLeastWithoutStrings)
{
  Straightened &after = straightened();
  const auto year_with = [](double hours) {
    cases::Case c = guard_case();
    c.hot_evenings = {hours * hour, 273.15 + 45};
    return Air{365.25 * day, cases::indoor_climate(c, 0)};
  };
  const Air mild = year_with(0), hot = year_with(5);
  const std::string set = "electric 10-46";
  const double slack = relapse(after, "", hot), strung = relapse(after, set, mild),
               strung_hot = relapse(after, set, hot);
  EXPECT_LT(slack, strung);
  EXPECT_GT(strung_hot, strung + 0.01e-3) << "the hot hours are not lost";
}
} // namespace overbend::tests
