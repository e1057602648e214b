// SPDX-License-Identifier: GPL-3.0-or-later
// Whether a job ends within its limits, and which limits are named.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/job/limits_named.h"
#include "solver/plan/clamp_setting.h"
#include "solver/plan/work_bounds.h"
#include "tests/unit/judge_after.h"

#include <iterator>

using namespace overbend;
using solver::Limit;
using solver::Region;
using solver::Verdict;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;
using tests::celsius;
using tests::degree;
using tests::JudgeAfter;
using tests::the_case;

namespace
{
// Read with the middle line, strung, at the date asked.
solver::PassPlan ends_with(double bow, double twist)
{
  solver::PassPlan pass;
  pass.strung[1] = {bow, bow, bow, twist};
  return pass;
}
} // namespace

// Shares by hand: cold 60 and 90 N, hot 33 and 45 N on tuners that bear 100 N, by cords that bear
// 300; 0.9 of 3 mm past straight; 0.3 of strength against the 0.8 at which it is refused. Strength
// under the strings alone is nothing that a clamp setting can mend.
TEST_F(JudgeAfter, WhatAClampAsksColdAndHotIsAShareOfEachLimitTheLargestFirst)
{
  materials::Tables tables = materials::tables();
  for (materials::Tuner &tuner : tables.tuners) {
    tuner.side_floor = 100; // more than the set puts on any of its posts
    tuner.caution_share = tuner.refuse_share = 1;
  }
  put_on_posts();
  solver::PhaseEnd cold, hot;
  cold.largest_cord = {60, 90};
  hot.phase = solver::deciding_phase(c.phases);
  ASSERT_EQ(c.phases[hot.phase].kind, cases::PhaseKind::reread);
  hot.largest_cord = {33, 45};
  column.history.phases = {cold, hot};
  column.setting.bow = -0.8e-3;
  column.diagnosis.as_built.bow = -0.1e-3;
  unsigned clamped = 0, strung = 0;
  for (unsigned i = 0; i < c.phases.size(); ++i)
    (c.phases[i].cords ? clamped : strung) = i;
  column.peaks.in_phase[0][Region::headstock_root].value = 0.16;
  column.peaks.in_phase[clamped][Region::headstock_root].value = 0.3;
  column.peaks.in_phase[strung][Region::headstock_root].value = 0.4;
  column.peaks.in_phase[strung][Region::shaft].value = 0.7;
  const auto all = solver::demands(column, c, c.phases, tables);
  const struct
  {
    Limit limit;
    const char *place;
    solver::Moment moment;
    double share, asked, bears;
  } expected[] = {{Limit::tuner_pull, "treble cord", solver::Moment::cold, 0.9, 90, 100},
                  {Limit::tuner_pull, "bass cord", solver::Moment::cold, 0.6, 60, 100},
                  {Limit::tuner_pull, "treble cord", solver::Moment::hot, 0.45, 45, 100},
                  {Limit::strength, "headstock root", solver::Moment::hot, 0.375, 0.3, 0.8},
                  {Limit::tuner_pull, "bass cord", solver::Moment::hot, 0.33, 33, 100},
                  {Limit::overbend, "", solver::Moment::hot, 0.3, 0.9e-3, 3e-3},
                  {Limit::strength, "headstock root", solver::Moment::cold, 0.2, 0.16, 0.8}};
  ASSERT_EQ(all.size(), std::size(expected));
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i].limit, expected[i].limit) << i;
    EXPECT_EQ(all[i].place, expected[i].place) << i;
    EXPECT_EQ(all[i].moment, expected[i].moment) << i;
    EXPECT_NEAR(all[i].share, expected[i].share, 1e-12) << i;
    EXPECT_NEAR(all[i].asked, expected[i].asked, 1e-9) << i;
    EXPECT_NEAR(all[i].bears, expected[i].bears, 1e-9) << i;
  }
  EXPECT_EQ(all[3].region, Region::headstock_root);
}

// Common practice: a twist below 0.25 degrees nobody notices, and 0.1 mm more or less neither.
TEST_F(JudgeAfter, AJobThatDoesNotEndInTwoPassesSaysWhereItEnds)
{
  job.ends = false;
  job.wanted = {0.2e-3, 0.2e-3, 0.2e-3, 0};
  job.passes = {ends_with(0.9e-3, 0.006), ends_with(0.5e-3, 0.005)};
  expect_refused("After two passes it would read 0.50 mm (20 thou) forward");
  EXPECT_THAT(judge().reasons, Contains(HasSubstr("wanted is 0.20 mm (7.9 thou) forward")));
  job.passes.pop_back();
  expect_refused("After the pass it would read 0.90 mm (35 thou) forward");
  job.ends = true;
  EXPECT_EQ(judge().kind, Verdict::do_it);
}

// Left out, a fast line goes too far back: no plan hides that.
TEST_F(JudgeAfter, ASecondHotReadingIsNotToBeLeftOut)
{
  EXPECT_THAT(judge().cautions, Not(Contains(HasSubstr("second hot reading"))));
  solver::LetUp fast;
  fast.left.bow = -0.95e-3;
  job.passes.front().second = solver::SecondReading{{}, {}, {fast}};
  EXPECT_THAT(judge().cautions,
              Contains(HasSubstr("it would end at 0.95 mm (37 thou) back-bow, strung")));
}

TEST(IsClose, WithinTheMissOfAPlan)
{
  const auto &limits = materials::tables().limits;
  const solver::Reading wanted{0, 0.2e-3, 0, 0};
  const auto close = [&](double bow, double twist) {
    return solver::is_close({0, bow, 0, twist}, wanted, limits);
  };
  EXPECT_TRUE(close(0.299e-3, 0.249 * degree));
  EXPECT_TRUE(close(0.101e-3, -0.249 * degree));
  EXPECT_FALSE(close(0.301e-3, 0));
  EXPECT_FALSE(close(0.099e-3, 0));
  EXPECT_FALSE(close(0.2e-3, 0.251 * degree));
}

// Whatever else is wrong: every limit of every pass and of every set-up that was tried is named.
TEST_F(JudgeAfter, EveryLimitThatIsPassedIsNamed)
{
  job.ends = false;
  job.passes = {ends_with(0.9e-3, 0)};
  job.passes[0].limit = Limit::twist_out_of_reach;
  job.passes[0].demands = {
      {Limit::cord_pull, 1.2, "bass end of the bar", solver::Moment::cold, 360, 300, {}},
      {Limit::strength, 1.1, "headstock root", solver::Moment::hot, 0.88, 0.8,
       Region::headstock_root},
      {Limit::overbend, 0.9, "", solver::Moment::hot, 2.7e-3, 3e-3, {}}};
  job.tried = {{c.bench,
                {},
                false,
                Limit::tuner_pull,
                {},
                {{Limit::tuner_pull, 2, "bass cord", solver::Moment::hot, 300, 150, {}}}}};
  const Verdict v = judge();
  for (const char *said :
       {"The twist is out of reach",
        "Cold, the bass end of the bar would have to pull 360 N (36.7 kgf, 80.9 lbf); it should "
        "not carry more than 300 N (30.6 kgf, 67.4 lbf).",
        "Hot, the headstock root would be used to 88 % of its strength; 80 % is the limit.",
        "Hot, the bass cord would have to pull 300 N (30.6 kgf, 67.4 lbf); its posts should not "
        "carry more than 150 N (15.3 kgf, 33.7 lbf)."})
    EXPECT_THAT(v.reasons, Contains(HasSubstr(said)));
  EXPECT_THAT(v.reasons, Not(Contains(HasSubstr("clamped 2.70 mm"))));
  EXPECT_EQ(v.kind, Verdict::do_not);
}

// A line that does not move hides nothing.
TEST_F(JudgeAfter, LimitsAreNamedBesideALineThatDoesNotMove)
{
  job.ends = job.line_moves = false;
  job.passes[0].demands = {{Limit::strength, 1.9, "headstock root", solver::Moment::hot, 1.53, 0.8,
                            Region::headstock_root}};
  warm([](double) { return celsius + 25; });
  const Verdict v = judge();
  EXPECT_THAT(v.reasons, Contains(HasSubstr("The line does not move")));
  EXPECT_THAT(v.reasons, Contains(HasSubstr("used to 153 % of its strength")));
}

TEST(LimitsInWords, SayOnceWhatIsPassedWithTheMostThatWasAsked)
{
  solver::Job job;
  const auto cord = [](double pull, solver::Moment moment) {
    return solver::Demand{Limit::cord_pull, pull / 300, "bass cord", moment, pull, 300, {}};
  };
  job.passes.resize(2);
  job.passes[0].demands = {cord(330, solver::Moment::hot), cord(310, solver::Moment::cold)};
  job.passes[1].demands = {cord(345, solver::Moment::hot), cord(299, solver::Moment::cold)};
  const auto said = solver::limits_in_words(job);
  ASSERT_EQ(said.size(), 2u);
  EXPECT_THAT(said[0], HasSubstr("Hot, the bass cord would have to pull 345 N"));
  EXPECT_THAT(said[1], HasSubstr("Cold, the bass cord would have to pull 310 N"));
}

// A plan stays just within the limit that stops it: nothing is passed, and yet it has a reason.
TEST(LimitsInWords, NameWhatHoldsAPassBackWithinItsLimit)
{
  solver::Job job;
  job.passes.resize(1);
  solver::PassPlan &pass = job.passes[0];
  pass.demands = {{Limit::tuner_pull, 0.98, "treble cord", solver::Moment::hot, 147, 150, {}},
                  {Limit::strength, 0.97, "shaft", solver::Moment::hot, 0.776, 0.8, Region::shaft},
                  {Limit::strength, 0.95, "headstock root", solver::Moment::hot, 0.76, 0.8,
                   Region::headstock_root},
                  {Limit::overbend, 0.9, "", solver::Moment::hot, 2.7e-3, 3e-3, {}}};
  EXPECT_THAT(solver::limits_in_words(job), ::testing::IsEmpty());
  pass.limit = Limit::tuner_pull;
  EXPECT_THAT(
      solver::limits_in_words(job),
      ::testing::ElementsAre(HasSubstr("What holds it back: hot, the treble cord pulls 147 N")));
  pass.limit = Limit::strength;
  pass.limit_place = Region::headstock_root;
  EXPECT_THAT(
      solver::limits_in_words(job),
      ::testing::ElementsAre(HasSubstr("the headstock root is used to 76 % of its strength")));
  pass.limit = Limit::overbend;
  EXPECT_THAT(
      solver::limits_in_words(job),
      ::testing::ElementsAre(HasSubstr("clamped 2.70 mm (106 thou) past straight by then")));
  pass.limit = Limit::fast_line;
  EXPECT_THAT(solver::limits_in_words(job), ::testing::IsEmpty());
}

// A working two-way rod bows a neck forward again; no other does.
TEST(FastLine, OnlyATwoWayRodThatWorksPullsForward)
{
  cases::Case c = the_case("white PVA");
  using cases::RodKind;
  using cases::RodState;
  const auto forward = [&](RodKind kind, RodState state) {
    c.neck.rod.kind = kind;
    c.neck.rod.state = state;
    return solver::rod_pulls_forward(c);
  };
  EXPECT_TRUE(forward(RodKind::two_way, RodState::slack));
  EXPECT_TRUE(forward(RodKind::two_way, RodState::set));
  EXPECT_FALSE(forward(RodKind::two_way, RodState::broken));
  EXPECT_FALSE(forward(RodKind::two_way, RodState::seized));
  EXPECT_FALSE(forward(RodKind::single_action, RodState::slack));
  EXPECT_FALSE(forward(RodKind::none, RodState::slack));
}

TEST_F(JudgeAfter, AFastLineThatHoldsThePassBackIsSaid)
{
  job.ends = false;
  job.passes = {ends_with(0.5e-3, 0)};
  job.passes[0].limit = Limit::fast_line;
  expect_refused("a line that turns out fast would end");
}
