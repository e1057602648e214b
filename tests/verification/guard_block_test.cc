// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// A plan with a stop block under the headstock: its height decides, and it is told.
namespace overbend::tests
{
namespace
{
// A bow that two cords reach within their limit when the whole pull is made cold.
cases::Case case_with_block()
{
  cases::Case c = guard_case("[bench]\nstop_block = true\n");
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.45e-3;
  c.found.twist = 0;
  return c;
}

// Made once for all tests of this file.
struct PlannedWithBlock
{
  GuardNeck neck;
  solver::PlanColumn plan;
  double headstock_rests = 0; // m, in the neck as found

  PlannedWithBlock() : neck(case_with_block())
  {
    auto &work = neck.work;
    const auto heat = solver::heat_of(work, neck.c.phases);
    const auto found = solver::find_start(work.neck(), work.found_strings);
    headstock_rests = work.bench.headstock_height(found.progress.state.displacement);
    solver::PlanInput input = neck.input;
    input.observe_final = [&](const solver::StepRecord &step, const solver::MechanicsState &state) {
      if (step.phase == 0 && step.time == 0)
        clamped.clear(); // a new run
      if (neck.c.phases[step.phase].block && step.phase >= solver::deciding_phase(neck.c.phases))
        clamped.push_back(work.bench.headstock_height(state.displacement));
    };
    plan = solver::make_plan(input, work, heat, found);
    for (const auto &end : plan.history.phases)
      std::printf("%-20s bow %7.4f -> %7.4f mm, twist %7.4f -> %7.4f deg\n",
                  neck.c.phases[end.phase].name.c_str(), 1e3 * end.reading_at_start.bow,
                  1e3 * end.reading.bow, 57.2958 * end.reading_at_start.twist,
                  57.2958 * end.reading.twist);
  }

  const solver::PhaseEnd &phase(cases::PhaseKind kind) const
  {
    for (const solver::PhaseEnd &end : plan.history.phases)
      if (neck.c.phases[end.phase].kind == kind)
        return end;
    throw std::logic_error("no such phase");
  }

  std::vector<double> clamped; // height of the headstock, m, one a step of the last run
};

const PlannedWithBlock &planned()
{
  static const PlannedWithBlock once;
  return once;
}
} // namespace

TEST(GuardBlock, APlanWithItReachesTheTargetStrung)
{
  const auto &p = planned().plan;
  const auto &c = planned().neck.c;
  EXPECT_EQ(p.limit, solver::Limit::none);
  EXPECT_TRUE(p.on_target);
  report("Plan of a coarse neck with a stop block", "bow at the asked date, mm", "the target",
         1e3 * p.wanted.bow, 1e3 * p.reached.bow, 1e3 * c.target.bow_tolerance);
  EXPECT_NEAR(p.reached.bow, p.wanted.bow, c.target.bow_tolerance);
  EXPECT_NEAR(p.reached.twist, p.wanted.twist, c.target.twist_tolerance);
  // The units about the block's height tell where it has to stand.
  EXPECT_LE(p.full_runs, 3u);
  EXPECT_NEAR(p.prediction_error_bow, 0, 5 * c.target.bow_tolerance);
}

// Told as the bench would measure it: how far the headstock comes down to the block, which then
// holds it there while it is hot and while it cools.
TEST(GuardBlock, IsToldByItsHeightBelowTheRestingHeadstockAndHoldsItThere)
{
  const PlannedWithBlock &with = planned();
  const auto &hot = with.phase(cases::PhaseKind::reread);
  ASSERT_TRUE(hot.block_below.has_value());
  const double below = *hot.block_below;
  ASSERT_FALSE(with.clamped.empty());
  EXPECT_NEAR(below, with.headstock_rests - with.clamped.front(), 1e-9);
  EXPECT_GT(below, 1e-3);
  double lowest = with.clamped.front();
  for (const double height : with.clamped)
    lowest = std::min(lowest, height);
  report("Stop block under a hot neck", "how far the headstock goes below it, mm",
         "a block that gives 5e6 N/m", 0, 1e3 * (with.clamped.front() - lowest), 0.06);
  EXPECT_LT(with.clamped.front() - lowest, 0.06e-3);
  // It bears when the line has let go.
  double bears = 0;
  for (const auto &step : with.plan.history.steps)
    if (with.neck.c.phases[step.phase].kind == cases::PhaseKind::hold)
      bears = std::max(bears, step.forces.block);
  EXPECT_GT(bears, 10);
  EXPECT_FALSE(with.phase(cases::PhaseKind::release).block_below.has_value());
}

// Cold it stands where the neck is straight; the hot reading sets it to the overbend.
TEST(GuardBlock, TheHotReadingSetsItLower)
{
  const PlannedWithBlock &with = planned();
  const auto &clamp = with.phase(cases::PhaseKind::clamp),
             &again = with.phase(cases::PhaseKind::reread);
  ASSERT_TRUE(clamp.block_below.has_value() && again.block_below.has_value());
  EXPECT_GT(*again.block_below, *clamp.block_below + 1e-3);
  EXPECT_GT(again.take_up[0], clamp.take_up[0]);
}
} // namespace overbend::tests
