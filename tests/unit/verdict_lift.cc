// SPDX-License-Identifier: GPL-3.0-or-later
// Refusals and cautions that the lift of the strings tells. Limits: common practice, no source.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/verdict/verdict.h"
#include "tests/unit/sound_case.h"

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using tests::degree;
using tests::sound_case;

// Common practice: strung minus off fits the string pull within 30 %. Beyond that the neck is
// scaled and it is said, up to what wood can be.
TEST(JudgeLift, StrungReadingThatDoesNotFitTheTableScalesTheNeck)
{
  const solver::Lifts lifts{0.3e-3, 0.3e-3, 0.3e-3};
  const auto judged = [&](double factor) {
    cases::Case c = sound_case();
    c.found.strung_bow = c.found.bow_centre + 0.3e-3 / factor;
    EXPECT_NEAR(solver::fit_stiffness(c, lifts), factor, 1e-9);
    return solver::judge_lift(c, lifts, solver::fit_stiffness(c, lifts));
  };
  for (const double factor : {0.49, 2.02, -2.})
    EXPECT_THAT(judged(factor).reasons, ::testing::ElementsAre(HasSubstr("Look again"))) << factor;
  for (const double factor : {0.71, 1., 1.29})
    EXPECT_EQ(judged(factor).kind, Verdict::do_it) << factor;
  EXPECT_EQ(judged(0.6).kind, Verdict::with_cautions);
  EXPECT_THAT(judged(0.6).cautions, ::testing::ElementsAre(HasSubstr("0.60 times as stiff")));
  EXPECT_THAT(judged(0.6).cautions, ::testing::ElementsAre(HasSubstr("crack")));
  EXPECT_THAT(judged(1.8).cautions, ::testing::ElementsAre(HasSubstr("strung_bow_rod_slack")));
}

// A neck of 1.25 times its table with a rod that takes 0.2 mm: read slack, strung, and with the rod
// still loaded, the pairs that differ in the strings alone tell 1.25, and the rod's part fits.
TEST(JudgeLift, ReadingsWithTheRodLoadedAndSlackTellStringsAndRodApart)
{
  const double factor = 1.25;
  const solver::Lifts lifts{0.3e-3, 0.3e-3, 0.1e-3};
  cases::Case c = sound_case();
  c.neck.rod.force = 800.;
  c.found.bow_centre = 1e-3;
  c.found.bow_rod_loaded = 1e-3 - 0.2e-3 / factor;
  c.found.strung_bow = 1e-3 + 0.1e-3 / factor;
  EXPECT_NEAR(solver::fit_stiffness(c, lifts), factor, 1e-9);
  c.found.strung_bow_rod_slack = 1e-3 + 0.3e-3 / factor;
  EXPECT_NEAR(solver::fit_stiffness(c, lifts), factor, 1e-9);
  EXPECT_EQ(solver::judge_lift(c, lifts, factor).kind, Verdict::do_it);
  // The rod did twice what its pull makes: by hand, 800 N twice.
  c.found.bow_rod_loaded = 1e-3 - 0.4e-3 / factor;
  const Verdict v = solver::judge_lift(c, lifts, factor);
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions, ::testing::ElementsAre(HasSubstr("1600 N")));
}

TEST(JudgeLift, NeckThatReadsRightWhenStrung)
{
  cases::Case c = sound_case();
  c.target.rod = cases::RodState::slack;
  c.target.relief = 0.2e-3;
  c.found.bow_centre = -0.12e-3;
  c.found.twist = 0;
  EXPECT_EQ(solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {}).kind, Verdict::nothing_to_do);
  c.found.twist = 0.5 * degree;
  EXPECT_EQ(solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {}).kind, Verdict::do_it);
}

// Cords over a cradle press a neck one way only.
TEST(JudgeLift, BackBowThatTheStringsDoNotTakeOutIsRefusedInWords)
{
  cases::Case c = sound_case();
  c.target.relief = 0.2e-3;
  c.found.bow_centre = -0.6e-3;
  for (const auto rod : {cases::RodState::slack, cases::RodState::set}) {
    c.target.rod = rod;
    const Verdict v = solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {});
    EXPECT_EQ(v.kind, Verdict::do_not);
    EXPECT_THAT(v.reasons, ::testing::ElementsAre(HasSubstr("bent forward")));
    EXPECT_FALSE(v.alternatives.empty());
  }
  c.found.bow_centre = 0.6e-3;
  EXPECT_EQ(solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {}).kind, Verdict::do_it);
}

// The rod of the strung reading counts: with one that takes 0.2 mm of 0.3 mm away, strung minus
// slack of 0.1 mm is a neck as stiff as told. One that holds the strings tells nothing.
TEST(JudgeLift, StiffnessFromStrungMinusSlackIsThatWithTheRodAsFound)
{
  cases::Case c = sound_case();
  c.found.bow_centre = 1e-3;
  c.found.strung_bow = 1.1e-3;
  const solver::Lifts lifts{0.3e-3, 0.3e-3, 0.1e-3};
  EXPECT_NEAR(solver::fit_stiffness(c, lifts), 1, 1e-12);
  EXPECT_EQ(solver::judge_lift(c, lifts, solver::fit_stiffness(c, lifts)).kind, Verdict::do_it);
  const solver::Lifts held{0.3e-3, 0.3e-3, 0.01e-3};
  EXPECT_THAT(solver::judge_lift(c, held, solver::fit_stiffness(c, held)).reasons,
              ::testing::ElementsAre(HasSubstr("almost hold each other")));
}

// A rod that is to bow the neck forward gives relief that the strings alone do not.
TEST(JudgeLift, ARodThatBowsForwardIsCountedIn)
{
  cases::Case c = sound_case();
  c.target.relief = 0.2e-3;
  c.target.rod = cases::RodState::set;
  c.neck.rod.kind = cases::RodKind::two_way;
  c.found.bow_centre = -0.6e-3;
  const solver::Lifts lifts{0.3e-3, 0.3e-3, 0.3e-3, 0.9e-3};
  EXPECT_EQ(solver::judge_lift(c, lifts, {}).kind, Verdict::do_not);
  c.neck.rod.bows = cases::RodBows::forward;
  EXPECT_EQ(solver::judge_lift(c, lifts, {}).kind, Verdict::do_it);
}
