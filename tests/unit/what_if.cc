// SPDX-License-Identifier: GPL-3.0-or-later
// What the neck would read if the clamp were set to something else.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/json/plan_json.h"
#include "solver/report/what_if.h"
#include "solver/text/plan_text.h"
#include "tests/unit/invented_plan.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::Not;

namespace
{
solver::PlanReport report_of(std::vector<solver::Demand> demands = {})
{
  static const cases::Case c = tests::two_passes();
  solver::PlanReport report = tests::invented_report(c, Verdict::do_it);
  report.job->passes.front().demands = std::move(demands);
  return report;
}

const solver::WhatIfClamp &planned(const solver::WhatIf &other)
{
  return *std::find_if(other.clamp.begin(), other.clamp.end(),
                       [](const solver::WhatIfClamp &one) { return one.is_the_plan; });
}

// How far the deepest row is beyond the plan, as a share of the clamped way.
double deepest_share(const solver::PlanReport &report)
{
  const auto other = solver::what_if(report);
  const solver::PassPlan &pass = report.job->passes.front();
  return (other->clamp.back().overbend - planned(*other).overbend) /
         (pass.overbend.bow - pass.slack.bow);
}

solver::Demand hot_demand(solver::Limit limit, double share)
{
  solver::Demand demand;
  demand.limit = limit;
  demand.share = share;
  demand.place = "the headstock root";
  return demand;
}
} // namespace

// By hand: a middle line keeps what its unit histories say of each millimetre [C].
TEST(WhatIf, FollowsTheSensitivityThroughThePlan)
{
  const solver::PlanReport report = report_of();
  const auto other = solver::what_if(report);
  ASSERT_TRUE(other);
  const solver::PassPlan &pass = report.job->passes.front();
  const solver::WhatIfClamp &plan = planned(*other);
  for (unsigned speed = 0; speed < 3; ++speed)
    EXPECT_NEAR(plan.strung[speed], pass.strung[speed].bow, 1e-12);
  for (const solver::WhatIfClamp &one : other->clamp)
    EXPECT_NEAR(one.strung[1] - plan.strung[1],
                pass.sensitivity.bow_by_bow * (one.overbend - plan.overbend), 1e-12);
  EXPECT_GT(other->clamp.size(), 5u);
}

// Where the clamp does nothing, the speed of the line does not matter [C].
TEST(WhatIf, LinesOfAllSpeedsMeetWhereTheClampDoesNothing)
{
  const solver::PlanReport report = report_of();
  const auto other = solver::what_if(report);
  const solver::PassPlan &pass = report.job->passes.front();
  const solver::WhatIfClamp &a = other->clamp.front(), &b = other->clamp.back();
  const double to_slack = pass.slack.bow - pass.overbend.bow;
  std::array<double, 3> there{};
  for (unsigned speed = 0; speed < 3; ++speed)
    there[speed] = planned(*other).strung[speed] +
                   (b.strung[speed] - a.strung[speed]) / (b.overbend - a.overbend) * to_slack;
  EXPECT_NEAR(there[0], there[1], 1e-9);
  EXPECT_NEAR(there[2], there[1], 1e-9);
}

TEST(WhatIf, GoesNoDeeperThanALimitLets)
{
  EXPECT_GT(deepest_share(report_of()), 0.2);
  const solver::PlanReport bound = report_of({hot_demand(solver::Limit::strength, 1 / 1.15)});
  EXPECT_LE(deepest_share(bound), 0.15 + 1e-9);
  EXPECT_GT(deepest_share(bound), 0.05);
  EXPECT_EQ(solver::what_if(bound)->deepest_because, "the headstock root");
  const solver::PlanReport at_it = report_of({hot_demand(solver::Limit::overbend, 1)});
  EXPECT_TRUE(solver::what_if(at_it)->clamp.back().is_the_plan);
  // What the cold pull asks hangs on where it is straight, not on the overbend.
  solver::Demand cold = hot_demand(solver::Limit::strength, 0.99);
  cold.moment = solver::Moment::cold;
  EXPECT_GT(deepest_share(report_of({cold})), 0.2);
}

TEST(WhatIf, MoreHeatKeepsMore)
{
  solver::PlanReport report = report_of();
  solver::HeatChoice &heat = report.job->heat;
  heat.kept = 0.4;
  heat.kept_with_a_degree = 0.44;
  heat.kept_with_an_hour = 0.4;
  const auto other = solver::what_if(report);
  const solver::PassPlan &pass = report.job->passes.front();
  const double kept = pass.sensitivity.bow_by_bow * (pass.overbend.bow - pass.slack.bow);
  EXPECT_NEAR(other->with_a_degree.value() - pass.strung[1].bow, 0.1 * kept, 1e-12);
  EXPECT_NEAR(other->with_an_hour.value(), pass.strung[1].bow, 1e-12);
  heat.kept = 0;
  EXPECT_FALSE(solver::what_if(report)->with_a_degree);
}

TEST(WhatIf, IsWrittenForAPlanAndNotForARefusal)
{
  const cases::Case c = tests::two_passes();
  const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  EXPECT_EQ(plan["what_if"]["pass"], 1);
  EXPECT_THAT(solver::plan_text(tests::invented_report(c, Verdict::do_it)),
              HasSubstr("IF YOU CLAMP IT TO SOMETHING ELSE"));
  EXPECT_FALSE(solver::what_if(tests::invented_report(c, Verdict::do_not)));
  EXPECT_FALSE(nlohmann::json::parse(tests::invented_plan(c, Verdict::do_not)).contains("what_if"));
}
