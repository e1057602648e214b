// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/phases.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// A whole neck with a seized rod: found, left alone, and clamped.
namespace overbend::tests
{
namespace
{
constexpr double pull = 400; // N
constexpr double bow = 0.45e-3;

// Left alone for ten minutes, then clamped.
cases::Case seized_case(double force)
{
  cases::Case c =
      guard_case("[rod]\nstate = \"seized\"\nforce = \"" + std::to_string(force) + " N\"\n");
  cases::Phase alone = cases::bare_bench(c), clamp = c.phases.front();
  alone.kind = cases::PhaseKind::store;
  alone.name = "left alone";
  alone.duration = 600;
  c.phases = {alone, clamp};
  return c;
}

struct SeizedNeck
{
  GuardNeck neck;
  solver::FoundNeck found;
  solver::History history;

  explicit SeizedNeck(double force, cases::Cause cause = cases::Cause::unknown)
      : neck(with(seized_case(force), cause))
  {
    auto &work = neck.work;
    found = solver::find_start(work.neck(), work.found_strings);
    solver::SimulationOptions options;
    options.bow_error = neck.c.numerics.bow_error;
    history = solver::simulate(work.neck(), neck.c.phases, work.planned_strings,
                               solver::heat_of(work, neck.c.phases), found.progress, options);
    const auto &d = found.diagnosis;
    std::printf("force %.0f N: rod %.4f, slip %.4f, wood %.4f, as built %.4f of %.4f mm; ceiling "
                "%.4f mm\n",
                force, 1e3 * d.rod_bow, 1e3 * d.slip_bow, 1e3 * d.wood_bow, 1e3 * d.as_built.bow,
                1e3 * d.found.bow, 1e3 * d.ceiling);
    for (const auto &step : history.steps)
      if (step.phase < 2)
        std::printf("  %s: bow %.4f mm, rod %.2f N\n", neck.c.phases[step.phase].name.c_str(),
                    1e3 * step.reading.bow, step.forces.rod);
  }

  static cases::Case with(cases::Case c, cases::Cause cause)
  {
    c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = bow;
    c.found.twist = 0;
    c.warp.cause = cause;
    c.phases[1].pull.bow = -1e-3;
    return c;
  }
};

const SeizedNeck &pulling()
{
  static const SeizedNeck once(pull);
  return once;
}

// First step of a phase.
const solver::StepRecord &first_of(const solver::History &history, unsigned phase)
{
  for (const solver::StepRecord &step : history.steps)
    if (step.phase == phase)
      return step;
  throw std::logic_error("no such phase");
}
} // namespace

// Measured with its pull in it: the found shape is the reading, left alone it stays, and the pull
// is in it once.
TEST(GuardSeizedRod, IsInTheFoundShapeOnceAndPullsWithItsForceThere)
{
  const SeizedNeck &s = pulling();
  const auto &d = s.found.diagnosis;
  const solver::StepRecord &first = first_of(s.history, 0);
  report("Neck found with a seized rod", "bow in the first phase, mm", "the reading", 1e3 * bow,
         1e3 * (first.reading.bow + d.as_built.bow), 0.01);
  EXPECT_NEAR(first.reading.bow + d.as_built.bow, bow, 0.01e-3);
  report("Neck found with a seized rod", "its pull in the first phase, N", "as told", pull,
         first.forces.rod, 0.005 * pull);
  EXPECT_NEAR(first.forces.rod, pull, 0.005 * pull);
  // Histories explain what the rod does not: nothing is left to be as built.
  EXPECT_LT(d.rod_bow, -0.05e-3);
  EXPECT_NEAR(d.rod_bow + d.slip_bow + d.wood_bow, bow, 0.02e-3);
  EXPECT_LT(std::abs(d.as_built.bow), 0.02e-3);
}

// A rod that pulls by nothing as found holds nothing of the shape, and heat under strings alone
// leaves more than heat under strings and rod.
TEST(GuardSeizedRod, TakesItsPartOfTheHistories)
{
  const SeizedNeck none(0);
  EXPECT_NEAR(none.found.diagnosis.rod_bow, 0, 1e-12);
  EXPECT_NEAR(first_of(none.history, 0).forces.rod, 0, 0.005 * pull);
  EXPECT_LT(pulling().found.diagnosis.ceiling, 0.95 * none.found.diagnosis.ceiling);
  // Both are springs of the same steel: clamped by as much their pulls change alike.
  const auto change = [](const SeizedNeck &s) {
    return first_of(s.history, 1).forces.rod - first_of(s.history, 0).forces.rod;
  };
  EXPECT_LT(change(none), -20); // drawn back it is to push
  EXPECT_NEAR(change(pulling()) / change(none), 1, 0.05);
}

// A hot store with its strings on and the rod in the neck: found as read, too.
TEST(GuardSeizedRod, IsInTheHotStoreAsWell)
{
  const SeizedNeck s(pull, cases::Cause::hot_strung);
  const auto &d = s.found.diagnosis;
  const solver::StepRecord &first = first_of(s.history, 0);
  EXPECT_NEAR(first.reading.bow + d.as_built.bow, bow, 0.01e-3);
  EXPECT_NEAR(first.forces.rod, pull, 0.005 * pull);
  EXPECT_NEAR(d.rod_bow + d.slip_bow + d.wood_bow + d.as_built.bow, bow, 0.02e-3);
  EXPECT_GT(d.slip_bow, 0);
}
} // namespace overbend::tests
