// SPDX-License-Identifier: GPL-3.0-or-later
// Refusals that the case alone tells. Limits: common practice, no source, unless a test names one.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/verdict/verdict.h"
#include "tests/unit/sound_case.h"

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using tests::celsius;
using tests::degree;
using tests::sound_case;

namespace
{
// A set point that the case asks for; where it does not, the plan chooses one.
void hold_bar_at(cases::Case &c, double temperature)
{
  c.left_open.bar_temperature = false;
  for (cases::Phase &phase : c.phases)
    if (phase.heater)
      phase.bar_temperature = celsius + temperature;
}

Verdict verdict_on(const cases::Case &c)
{
  return solver::refuse_before(c, materials::tables());
}

void expect_refused(const cases::Case &c, const std::string &because,
                    Verdict::Kind as = Verdict::do_not)
{
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, as) << because;
  EXPECT_TRUE(v.refused()) << because;
  ASSERT_EQ(v.reasons.size(), 1u) << because;
  EXPECT_THAT(v.reasons[0], HasSubstr(because));
  EXPECT_FALSE(v.alternatives.empty()) << because;
}
} // namespace

TEST(RefuseBefore, HasNothingAgainstASoundCase)
{
  const Verdict v = verdict_on(sound_case());
  EXPECT_EQ(v.kind, Verdict::do_it);
  EXPECT_THAT(v.reasons, IsEmpty());
}

// Safety facts: celluloid feeds its own fire; conservators advise to take old translucent plastic
// for it. Refuse celluloid with heat, whatever the temperature (trade, common practice).
TEST(RefuseBefore, CelluloidIsNeverHeated)
{
  cases::Case c = sound_case();
  c.binding = cases::Binding::celluloid;
  hold_bar_at(c, 45);
  expect_refused(c, "celluloid", Verdict::not_by_heat);
  // Clamped cold there is no fire to fear.
  for (cases::Phase &phase : c.phases)
    phase.heater = false;
  EXPECT_FALSE(verdict_on(c).refused());
}

// Suggested limit among the safety facts [E]: refuse above 60 degC with nitrocellulose declared.
TEST(RefuseBefore, SoftFinishesAboveTheirLimit)
{
  for (const auto &[finish, name] : {std::pair(cases::Finish::nitro_lacquer, "nitro"),
                                     std::pair(cases::Finish::shellac, "shellac"),
                                     std::pair(cases::Finish::acrylic, "acrylic")}) {
    cases::Case c = sound_case();
    c.finish = finish;
    hold_bar_at(c, 60.5);
    expect_refused(c, name);
    hold_bar_at(c, 60);
    EXPECT_EQ(verdict_on(c).kind, Verdict::with_cautions) << name;
    hold_bar_at(c, 65);
    c.left_open.bar_temperature = true;
    EXPECT_EQ(verdict_on(c).kind, Verdict::with_cautions) << name << ": the plan goes lower";
  }
}

// The bar lies on the board, so its finish counts even where the neck's is hard.
TEST(RefuseBefore, ATenderFinishOfTheBoardUnderTheBar)
{
  cases::Case c = sound_case();
  c.finish = cases::Finish::polyester;
  c.faces.board.kind = cases::Finish::nitro_lacquer;
  hold_bar_at(c, 62);
  expect_refused(c, "nitro lacquer");
}

// Common practice: about 57 degC at the fret tops while nobody knows what the finish is.
TEST(RefuseBefore, UnknownFinishOrBindingAboveItsCeiling)
{
  cases::Case c = sound_case();
  c.finish = cases::Finish::unknown;
  hold_bar_at(c, 57);
  EXPECT_FALSE(verdict_on(c).refused());
  hold_bar_at(c, 58);
  expect_refused(c, "unknown finish");
  c = sound_case();
  c.binding = cases::Binding::unknown;
  hold_bar_at(c, 58);
  expect_refused(c, "binding");
}

// The bar is hotter than anything it heats: each place is judged by its own limit after the run
// (verdict_after.cc), and a bar by none of them. What the places may come to (limits.toml, common
// practice): line 60 degC, surface 65, fret tops 68; 50 and 57 where glue or finish is not known.
TEST(RefuseBefore, AHotBarOnAHardFinishIsLeftToThePlacesItHeats)
{
  cases::Case c = sound_case();
  hold_bar_at(c, 72);
  EXPECT_EQ(verdict_on(c).kind, Verdict::do_it);
}

TEST(RefuseBefore, OpenCrack)
{
  cases::Case c = sound_case();
  c.found.open_crack = true;
  expect_refused(c, "open crack");
}

TEST(RefuseBefore, RodLoadedInTheReadings)
{
  cases::Case c = sound_case();
  c.found.rod_loaded = true;
  expect_refused(c, "rod was loaded");
}

TEST(RefuseBefore, AngleMistakenForABow)
{
  cases::Case c = sound_case();
  c.found.angle_only = true;
  expect_refused(c, "not a bow", Verdict::not_by_heat);
}

TEST(RefuseBefore, StringsOnWhileHot)
{
  cases::Case c = sound_case();
  for (cases::Phase &phase : c.phases)
    if (phase.kind == cases::PhaseKind::hold)
      phase.strings = true;
  expect_refused(c, "strings are on");
}

// Retained share of a two-layer beam whose line keeps 10 MPa at both ends: 0.02 (trade, [E]). The
// plateaus of these glues in the table are above that.
TEST(RefuseBefore, GluesThatNeverLetTheBoardSlide)
{
  for (const char *glue : {"epoxy", "urea-formaldehyde", "resorcinol", "polyurethane"}) {
    cases::Case c = sound_case();
    c.board_glue.kind = glue;
    expect_refused(c, glue, Verdict::not_by_heat);
  }
  for (const char *glue : {"white PVA", "yellow PVA", "cross-linked PVA", "hot hide"}) {
    cases::Case c = sound_case();
    c.board_glue.kind = glue;
    EXPECT_FALSE(verdict_on(c).refused()) << glue << ": left to the simulation";
  }
}

// The wood alone keeps a tenth of what is clamped (trade reference, no slip at all [E]).
TEST(RefuseBefore, FretsInTheShaftItself)
{
  cases::Case c = sound_case();
  c.board_glue.kind = "one piece";
  expect_refused(c, "Board and shaft are one piece", Verdict::not_by_heat);
}

// Common practice: a bow below 0.1 mm is noise, a twist below 0.25 degrees nobody notices.
TEST(RefuseBefore, NothingToDo)
{
  cases::Case c = sound_case();
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.09e-3;
  c.found.twist = 0.2 * degree;
  expect_refused(c, "Nothing to do", Verdict::nothing_to_do);
  c.found.twist = 0.3 * degree;
  EXPECT_FALSE(verdict_on(c).refused()) << "there is a twist";
  c.found.twist = 0.2 * degree;
  c.found.bow_bass = 0.3e-3;
  c.target.rod = cases::RodState::slack;
  EXPECT_FALSE(verdict_on(c).refused()) << "one edge is bowed";
}

// Common practice, with a working single-action rod: 0 to 0.15 mm unstrung is what is wanted.
TEST(RefuseBefore, BowAlreadyWithinTheWantedRange)
{
  cases::Case c = sound_case();
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.14e-3;
  c.found.twist = 0;
  c.target.rod = cases::RodState::set;
  expect_refused(c, "Nothing to do", Verdict::nothing_to_do);
  c.found.bow_centre = -0.14e-3;
  EXPECT_FALSE(verdict_on(c).refused()) << "a rod of one action cannot pull a back-bow up";
}

TEST(RefuseBefore, UnknownsAreCautions)
{
  cases::Case c = sound_case();
  c.board_glue.kind.reset();
  c.found.twist.reset();
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_EQ(v.cautions.size(), 2u);
}

TEST(RefuseBefore, EveryReasonIsGiven)
{
  cases::Case c = sound_case();
  c.found.open_crack = true;
  c.binding = cases::Binding::celluloid;
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.reasons.size(), 2u);
  EXPECT_EQ(v.kind, Verdict::do_not) << "the strictest of the two kinds";
}

// What a seized rod holds is in its pull: nothing to slacken first, and something to mind.
TEST(RefuseBefore, ASeizedRodIsASpringToMindAndNotALoadedOne)
{
  cases::Case c = sound_case();
  c.neck.rod.state = cases::RodState::seized;
  c.neck.rod.force = 500.;
  c.found.rod_loaded = true;
  Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions, ::testing::ElementsAre(HasSubstr("spring against everything")));
  c.neck.rod.force.reset();
  v = verdict_on(c);
  EXPECT_THAT(v.cautions, ::testing::Contains(HasSubstr("not known and is taken as none")));
}

// Common practice, no source: no room left, a washer gives it back.
TEST(RefuseBefore, ARodAtItsStopHasNoRoomForTheCorrection)
{
  cases::Case c = sound_case();
  c.neck.rod.state = cases::RodState::at_its_stop;
  c.target.rod = cases::RodState::set;
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions, ::testing::Contains(HasSubstr("slacken it all the way")));
  EXPECT_THAT(v.cautions, ::testing::Contains(::testing::AllOf(HasSubstr("no room left in the rod"),
                                                               HasSubstr("washer"))));
  c.target.rod = cases::RodState::slack;
  EXPECT_THAT(verdict_on(c).cautions, ::testing::Contains(HasSubstr("ends slack")));
}

TEST(RefuseBefore, OneStopBlockSetsNoTwist)
{
  cases::Case c = sound_case();
  for (cases::Phase &phase : c.phases)
    phase.block = phase.cords;
  EXPECT_THAT(verdict_on(c).cautions,
              ::testing::ElementsAre(HasSubstr("sets the bow and not the twist")));
}

TEST(StandingCautions, SpeakOfTheIronOnlyWhereThereIsHeat)
{
  cases::Case c = sound_case();
  EXPECT_THAT(solver::standing_cautions(c), ::testing::Contains(HasSubstr("iron")));
  EXPECT_THAT(solver::standing_cautions(c), ::testing::Contains(HasSubstr("local rules")));
  for (cases::Phase &phase : c.phases)
    phase.heater = false;
  EXPECT_THAT(solver::standing_cautions(c), ::testing::Not(::testing::Contains(HasSubstr("iron"))));
}
