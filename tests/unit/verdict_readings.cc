// SPDX-License-Identifier: GPL-3.0-or-later
// Verdicts that turn on how a neck was read: frets that are not level, and a neck angle that looks
// like a bow.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "solver/readings/fret_surface.h"
#include "solver/readings/neck_angle.h"
#include "solver/verdict/verdict_need.h"

using namespace overbend;
using solver::Verdict;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

namespace
{
constexpr double degree = 3.14159265358979323846 / 180;

cases::Case sound_case(const char *preset = "steel-string acoustic")
{
  cases::Case c = cases::preset_case(preset);
  c.board_glue.kind = "white PVA";
  c.finish = cases::Finish::polyester;
  c.binding = cases::Binding::none;
  c.found.twist = 0;
  c.target.rod = cases::RodState::slack;
  return c;
}

void read_bow(cases::Case &c, double bow)
{
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = bow;
}

// A fret worn at the fret of the readings, so that on a straight neck the edge reads its wear.
void wear(cases::Case &c, double depth)
{
  c.readings.fret_heights[c.found.bow_fret] = {-depth, -depth};
}

Verdict verdict_on(const cases::Case &c)
{
  return solver::refuse_before(c, materials::tables());
}
} // namespace

// Trade [T]: where plain and notched edge disagree, the frets are the problem, not the neck.
TEST(FretsOrNeck, AStraightNeckWithAWornFretIsRefusedAndToBeLeveled)
{
  cases::Case c = sound_case();
  read_bow(c, 0.3e-3);
  wear(c, 0.3e-3);
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::not_by_heat);
  ASSERT_EQ(v.reasons.size(), 1u);
  EXPECT_THAT(v.reasons[0], HasSubstr("It is the frets, not the neck"));
  EXPECT_THAT(v.reasons[0],
              HasSubstr("0.30 mm (12 thou) of the 0.30 mm (12 thou) reading at the centre is "
                        "frets, not neck"));
  EXPECT_THAT(v.alternatives, Contains(HasSubstr("level them")));
  // Read on the wood the same figure is a bow of the neck.
  c.readings.edge_on = cases::EdgeOn::wood;
  EXPECT_FALSE(verdict_on(c).refused());
}

TEST(FretsOrNeck, ABowOfTheWoodWithAWornFretIsDoneWithACaution)
{
  cases::Case c = sound_case();
  read_bow(c, 1e-3);
  wear(c, 0.3e-3);
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions, Contains(AllOf(HasSubstr("0.30 mm (12 thou) of the 1.00 mm (39 thou)"),
                                         HasSubstr("Level or seat them first"))));
  // Less than the plan's tolerance is not worth a word.
  wear(c, 0.01e-3);
  EXPECT_EQ(verdict_on(c).kind, Verdict::do_it);
}

TEST(FretsOrNeck, FretsThatHideABowAreSaid)
{
  cases::Case c = sound_case();
  read_bow(c, 0);
  wear(c, -0.4e-3); // a high fret in the valley
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::nothing_to_do);
  EXPECT_THAT(v.reasons, ElementsAre(AllOf(HasSubstr("Nothing to do"), HasSubstr("frets hide"),
                                           HasSubstr("0.40 mm (16 thou) forward"))));
}

TEST(FretsOrNeck, SticksOnFretsWornOnOneSideLie)
{
  cases::Case c = sound_case();
  read_bow(c, 1e-3);
  c.readings.fret_heights[1] = {0, -0.2e-3};
  c.found.twist = solver::of_surface(c).twist;
  ASSERT_LT(*c.found.twist, -0.25 * degree);
  EXPECT_THAT(solver::frets_in_words(c), HasSubstr("sticks on them lie"));
  EXPECT_THAT(verdict_on(c).cautions, Contains(HasSubstr("sticks on them lie")));
}

TEST(FretsOrNeck, StrungItReadsRightButForTheFrets)
{
  cases::Case c = sound_case();
  c.target.relief = 0.2e-3;
  read_bow(c, 0.3e-3);
  wear(c, 0.4e-3); // the wood: 0.1 mm back-bow, strung 0.2 mm
  const Verdict v = solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {});
  EXPECT_EQ(v.kind, Verdict::not_by_heat);
  EXPECT_THAT(v.reasons, ElementsAre(HasSubstr("It is the frets, not the neck: strung up")));
}

// Trade [T]: a bad angle is not a bow, and heat pressing will not cure it.
TEST(AngleOrBow, AStraightNeckWithABadAngleIsRefusedForItsAngle)
{
  cases::Case c = sound_case();
  read_bow(c, 0.05e-3);
  for (const double reading : {-3e-3, 5e-3}) {
    c.readings.over_bridge = reading;
    const Verdict v = verdict_on(c);
    EXPECT_EQ(v.kind, Verdict::not_by_heat);
    EXPECT_THAT(v.reasons, ElementsAre(AllOf(HasSubstr("It is the neck angle"),
                                             HasSubstr(reading < 0 ? "too low" : "too high"),
                                             HasSubstr("heat and clamping will not cure it"))));
    EXPECT_THAT(v.alternatives, Contains(HasSubstr("neck reset")));
  }
  c.readings.over_bridge = 1.5e-3;
  EXPECT_THAT(verdict_on(c).reasons, ElementsAre(HasSubstr("Nothing to do")));
  EXPECT_EQ(verdict_on(c).kind, Verdict::nothing_to_do);
}

TEST(AngleOrBow, ABowWithABadAngleIsDoneAndTheAngleStays)
{
  cases::Case c = sound_case();
  read_bow(c, 1e-3);
  c.readings.over_bridge = -6e-3;
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions,
              Contains(AllOf(HasSubstr("too low as well"), HasSubstr("straightening leaves it"))));
}

// 1 mm of forward bow alone lowers the edge at the bridge by about 2 mm (neck_angle.h).
TEST(AngleOrBow, ALowReadingThatTheBowMakesIsNoBadAngle)
{
  cases::Case c = sound_case();
  read_bow(c, 1e-3);
  c.readings.over_bridge = -0.8e-3;
  EXPECT_EQ(verdict_on(c).kind, Verdict::do_it);
  c.readings.over_bridge = 1e-3 * 3.2; // straight it would be over 5 mm
  EXPECT_THAT(verdict_on(c).cautions, Contains(HasSubstr("too high as well")));
}

TEST(AngleOrBow, WithinTheErrorOfTheReadingItIsADoubt)
{
  cases::Case c = sound_case();
  read_bow(c, 1e-3);
  c.readings.over_bridge = -0.3e-3 + solver::over_bridge_by_bow(c, 1e-3);
  EXPECT_THAT(verdict_on(c).cautions, ElementsAre(HasSubstr("may be too low")));
}

TEST(AngleOrBow, ANeckThatReadsRightWhenStrungIsRefusedForItsAngle)
{
  cases::Case c = sound_case();
  c.target.relief = 0.2e-3;
  read_bow(c, -0.12e-3);
  c.readings.over_bridge = -3e-3;
  EXPECT_THAT(solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {}).reasons,
              ElementsAre(HasSubstr("It is the neck angle")));
}
