// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <cmath>

namespace overbend::tests
{
// The closed form starts the plan; the finite elements decide it. The setting must leave the first
// guess, and the full run with it must read what was asked for.
TEST(GuardPlan, SettingIsFoundByFullRunsAndNotByTheClosedForm)
{
  GuardNeck neck;
  const auto heat = solver::heat_of(neck.work, neck.c.phases);
  const auto found = solver::find_start(neck.c, neck.work.model, neck.work.bench, neck.work.lines,
                                        neck.work.found_strings, neck.work.mechanics);
  const auto plan = solver::make_plan(neck.input, neck.work, heat, found);
  std::printf("first guess %.4f mm, %.4f deg; setting %.4f mm, %.4f deg; %u full runs\n",
              1e3 * plan.first_guess.bow, 57.2958 * plan.first_guess.twist, 1e3 * plan.setting.bow,
              57.2958 * plan.setting.twist, plan.full_runs);
  EXPECT_EQ(plan.limit, solver::Limit::none);
  EXPECT_TRUE(plan.on_target);
  report("Plan of a coarse neck", "bow at the asked date, mm", "the target", 1e3 * plan.wanted.bow,
         1e3 * plan.reached.bow, 1e3 * neck.c.target.bow_tolerance);
  EXPECT_NEAR(plan.reached.bow, plan.wanted.bow, neck.c.target.bow_tolerance);
  EXPECT_NEAR(plan.reached.twist, plan.wanted.twist, neck.c.target.twist_tolerance);
  // As built included: what the last step of the full run reads.
  EXPECT_DOUBLE_EQ(plan.reached.bow,
                   plan.history.steps.back().reading.bow + plan.diagnosis.as_built.bow);
  EXPECT_GT(std::abs(plan.setting.bow - plan.first_guess.bow), neck.c.target.bow_tolerance);
}
} // namespace overbend::tests
