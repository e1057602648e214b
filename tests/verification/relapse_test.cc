// SPDX-License-Identifier: GPL-3.0-or-later
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
    const auto found = solver::find_start(neck.c, work.model, work.bench, work.lines,
                                          work.found_strings, work.mechanics, water.at(0));
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
        solver::simulate(neck.c, phases, work.model, work.bench, work.lines, work.planned_strings,
                         heat, found.progress, work.mechanics, options);
    progress = history.end;
    moisture = water.at(end);
    std::printf("found %.3f mm, set to %.3f mm, strung at the asked date %.3f mm of %.3f mm\n",
                1e3 * plan.diagnosis.found.bow, 1e3 * plan.setting.bow, 1e3 * plan.reached.bow,
                1e3 * plan.wanted.bow);
  }
};

// Growth of the bow (m) from just after the strings are on: three weeks, in the room or with hot
// evenings, and then a week in the room for all, so that the last reading is taken in the same air.
// The weeks are one phase told in days, so the skin's daily breathing is left out
// (solver/climate/air_series.h). set: empty, no strings.
double relapse(Straightened &after, const std::string &set, bool hot)
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
  phases[1].duration = 21 * day;
  phases[2].duration = 7 * day;
  if (hot)
    // Each day at home, in a hot car, waiting, on a hot stage.
    phases[1].climate = each_day({{0, 21, 0.45}, {16, 38, 0.25}, {18, 23, 0.5}, {20, 34, 0.55}});
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
  const auto history = solver::simulate(neck.c, phases, work.model, work.bench, work.lines, strings,
                                        heat, after.progress, work.mechanics, options);
  const double from = history.phases.front().reading_at_start.bow;
  double m0 = 0, m1 = 0;
  for (std::size_t i = 0; i < after.moisture.size(); ++i) {
    m0 += water.all().front().moisture[i] / after.moisture.size();
    m1 += water.all().back().moisture[i] / after.moisture.size();
  }
  std::printf("%-16s %-9s %6.1f N: bow just after %.4f mm; gone on after 3 weeks %+.4f mm, a week "
              "later in the room %+.4f mm; moisture %.2f to %.2f %%\n",
              set.empty() ? "no strings" : set.c_str(), hot ? "hot" : "room", strings.total,
              1e3 * from, 1e3 * (history.phases[1].reading.bow - from),
              1e3 * (history.phases[2].reading.bow - from), 100 * m0, 100 * m1);
  return history.phases[2].reading.bow - from;
}
} // namespace

TEST(StraightenedNeck, RelapsesMoreUnderHeavierStringsAndMoreStillOnAHotStage)
{
  const std::string nine = "electric 9-42", eleven = "electric 11-49";
  Straightened after;
  const double slack = relapse(after, "", false), light = relapse(after, nine, false),
               heavy = relapse(after, eleven, false), hot = relapse(after, eleven, true);
  EXPECT_LT(slack, light);
  EXPECT_LT(light, heavy);
  EXPECT_LT(heavy, hot);
  // The evenings leave the wood a little drier: what that bows is in a twin without strings.
  const double slack_and_hot = relapse(after, "", true);
  EXPECT_LT(heavy - slack, hot - slack_and_hot);
}
} // namespace overbend::tests
