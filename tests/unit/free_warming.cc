// SPDX-License-Identifier: GPL-3.0-or-later
// What the reading after a free warming says. The courses are written by hand.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/report/free_warming.h"

#include "cases/read/read_case.h"

using namespace overbend;
using materials::LineSpeed;
using solver::free_course;
using solver::free_reading_phase;
using solver::free_warming_text;
using ::testing::HasSubstr;
using ::testing::Not;

namespace
{
cases::Case electric(const std::string &schedule)
{
  return cases::parse_case(
      "preset = \"electric\"\n[found]\nbow = \"0.5 mm\"\n[schedule]\n" + schedule, "free.toml");
}

solver::PhaseEnd end_of(unsigned phase, double from, double to)
{
  solver::PhaseEnd end;
  end.phase = phase;
  end.reading_at_start.bow = from;
  end.reading.bow = to;
  return end;
}
} // namespace

TEST(FreeWarmingWords, ItIsReadAgainColdBeforeTheClamp)
{
  const cases::Case c = electric("warm_free = true\n");
  const auto phase = free_reading_phase(c.phases);
  ASSERT_TRUE(phase);
  EXPECT_EQ(c.phases[*phase].name, "cool free");
  EXPECT_FALSE(free_reading_phase(electric("").phases));
}

// Closed form of complete slip without load, trade practice [E]: back to q b. By hand: b = 0.4 mm
// of the model, q = 0.25, 0.1 mm as built.
TEST(FreeWarmingWords, CourseIsThatOfTheBenchWithWhatIsAsBuilt)
{
  const cases::Case c = electric("warm_free = true\n");
  solver::Diagnosis d;
  d.slip_bow = 0.3e-3;
  d.wood_bow = 0.1e-3;
  d.as_built.bow = 0.1e-3;
  ASSERT_NEAR(d.wood_share(), 0.25, 1e-12);
  solver::History history;
  history.phases = {end_of(0, 0.4e-3, 0.3e-3), end_of(1, 0.3e-3, 0.2e-3), end_of(2, 0.2e-3, -1e-3)};
  const auto course = free_course(c, history, d, LineSpeed::fast);
  ASSERT_TRUE(course);
  EXPECT_NEAR(course->before, 0.5e-3, 1e-12);
  EXPECT_NEAR(course->after, 0.3e-3, 1e-12);
  EXPECT_NEAR(course->all_slipped, 0.2e-3, 1e-12);
  EXPECT_NEAR(course->slip_share, 0.75, 1e-12);
  history.phases.resize(1); // stopped before it was read
  EXPECT_FALSE(free_course(c, history, d, LineSpeed::fast));
}

TEST(FreeWarmingWords, LimitsBetweenLinesAreHalfWayAndOnlyWhereAnEdgeTellsThemApart)
{
  const std::string text = free_warming_text({{LineSpeed::slow, 0.5e-3, 0.46e-3, 0.1e-3, 0.8},
                                              {LineSpeed::middle, 0.5e-3, 0.43e-3, 0.1e-3, 0.8},
                                              {LineSpeed::fast, 0.5e-3, 0.23e-3, 0.1e-3, 0.8}});
  EXPECT_THAT(text, HasSubstr("An edge does not tell slow line and middle line apart"));
  EXPECT_THAT(text, HasSubstr("Limit between middle line and fast line: +0.33 mm"));
  EXPECT_THAT(text, HasSubstr("80 % of the bow"));
  EXPECT_THAT(text, HasSubstr("would leave +0.10 mm"));
  EXPECT_THAT(text, Not(HasSubstr("Only the line")));
}

TEST(FreeWarmingWords, OneLineAloneSaysSo)
{
  EXPECT_THAT(free_warming_text({{LineSpeed::middle, 0.5e-3, 0.3e-3, 0.1e-3, 0.8}}),
              HasSubstr("Only this line was computed."));
}

// A neck that is not expected to move must not be called dead for not moving.
TEST(FreeWarmingWords, NoMovementSaysNothingWhereNoneIsExpected)
{
  const auto text = [](double after) {
    return free_warming_text({{LineSpeed::middle, 0.45e-3, after, 0.15e-3, 0.7}});
  };
  EXPECT_THAT(text(0.42e-3), HasSubstr("says nothing about its glue"));
  EXPECT_THAT(text(0.42e-3), Not(HasSubstr("do not bend it")));
  EXPECT_THAT(text(0.3e-3), HasSubstr("do not bend it"));
}

// A soft line that hardly lets the neck go back is explained; one that lets it go needs no words.
TEST(FreeWarmingWords, LittleMovementOfASoftLineIsExplained)
{
  const auto text = [](double after) {
    return free_warming_text({{LineSpeed::middle, 0.45e-3, after, 0, 1}});
  };
  EXPECT_THAT(text(0.39e-3), HasSubstr("only the wood's own memory drives it"));
  EXPECT_THAT(text(0.2e-3), Not(HasSubstr("memory")));
}
