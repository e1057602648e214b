// SPDX-License-Identifier: GPL-3.0-or-later
// The date at which the target is read, where plan and card take it from.
#include "solver/report/plan_advice.h"

#include "cases/read/read_case.h"

#include <gtest/gtest.h>

using namespace overbend;
using cases::PhaseKind;
using solver::phase_at_date;

namespace
{
std::vector<cases::Phase> schedule(const std::vector<PhaseKind> &kinds)
{
  std::vector<cases::Phase> phases(kinds.size());
  for (std::size_t i = 0; i < kinds.size(); ++i)
    phases[i].kind = kinds[i];
  return phases;
}

cases::Case electric(const std::string &play)
{
  return cases::parse_case("preset = \"electric\"\n[found]\nbow = \"0.5 mm\"\n[schedule]\n" + play,
                           "date.toml");
}
} // namespace

TEST(PlanDate, IsTheEndOfTheScheduleWithoutPlay)
{
  EXPECT_EQ(phase_at_date(schedule({PhaseKind::clamp, PhaseKind::release, PhaseKind::string_up})),
            2u);
  EXPECT_EQ(phase_at_date(schedule({PhaseKind::rest})), 0u);
}

TEST(PlanDate, IsBeforeThePlayThatEndsTheSchedule)
{
  EXPECT_EQ(phase_at_date(schedule({PhaseKind::clamp, PhaseKind::string_up, PhaseKind::play})), 1u);
  EXPECT_EQ(phase_at_date(schedule(
                {PhaseKind::clamp, PhaseKind::string_up, PhaseKind::play, PhaseKind::play})),
            1u);
}

TEST(PlanDate, PlayWithSomethingAfterItIsBeforeTheDate)
{
  EXPECT_EQ(phase_at_date(schedule({PhaseKind::play, PhaseKind::clamp, PhaseKind::rest})), 2u);
  EXPECT_EQ(phase_at_date(schedule({PhaseKind::play, PhaseKind::clamp, PhaseKind::play})), 1u);
}

TEST(PlanDate, NothingButPlayHasItsFirstPhaseAndNoPhaseHasNone)
{
  EXPECT_EQ(phase_at_date(schedule({PhaseKind::play, PhaseKind::play})), 0u);
  EXPECT_THROW(phase_at_date({}), std::invalid_argument);
}

TEST(PlanDate, TheCardsStageIsStringUpWithAndWithoutPlay)
{
  for (const char *play : {"", "play = \"180 days\"\n"}) {
    const cases::Case c = electric(play);
    const solver::Stage last = solver::stages(c).back();
    EXPECT_EQ(last.name, "strung, 7 days after release");
    EXPECT_EQ(c.phases.at(last.phase).kind, PhaseKind::string_up);
    EXPECT_FALSE(last.at_start);
  }
}
