// SPDX-License-Identifier: GPL-3.0-or-later
// Refusals that the case alone or the lift of the strings tells. Limits: common practice, no
// source, unless a test names one.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/plan/verdict.h"

#include "cases/read_case.h"

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

namespace
{
constexpr double celsius = 273.15, degree = 3.14159265358979323846 / 180;

// A case that nothing speaks against before it is simulated.
cases::Case sound_case()
{
  cases::Case c = cases::preset_case("electric");
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 1e-3;
  c.found.twist = 0.5 * degree;
  c.board_glue.kind = "white PVA";
  c.finish = cases::Finish::polyester;
  c.binding = cases::Binding::none;
  return c;
}

void hold_bar_at(cases::Case &c, double temperature)
{
  for (cases::Phase &phase : c.phases)
    if (phase.heater)
      phase.bar_temperature = celsius + temperature;
}

Verdict verdict_on(const cases::Case &c)
{
  return solver::refuse_before(c, materials::tables());
}

void expect_refused(const cases::Case &c, const std::string &because)
{
  const Verdict v = verdict_on(c);
  EXPECT_EQ(v.kind, Verdict::do_not) << because;
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
  expect_refused(c, "celluloid");
  // Clamped cold there is no fire to fear.
  for (cases::Phase &phase : c.phases)
    phase.heater = false;
  EXPECT_NE(verdict_on(c).kind, Verdict::do_not);
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
  EXPECT_NE(verdict_on(c).kind, Verdict::do_not);
  hold_bar_at(c, 58);
  expect_refused(c, "unknown finish");
  c = sound_case();
  c.binding = cases::Binding::unknown;
  hold_bar_at(c, 58);
  expect_refused(c, "binding");
}

// Suggested limit among the safety facts [E]: refuse above 65 degC always.
TEST(RefuseBefore, NothingIsPlannedAbove65Degrees)
{
  cases::Case c = sound_case();
  hold_bar_at(c, 65);
  EXPECT_EQ(verdict_on(c).kind, Verdict::do_it);
  hold_bar_at(c, 65.5);
  expect_refused(c, "limit for this board");
  // Dry hide glue itself would bear 80 degC (table); the neck does not get more for it.
  c.board_glue.kind = "hot hide";
  expect_refused(c, "limit for this board");
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
  expect_refused(c, "not a bow");
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
    expect_refused(c, glue);
  }
  for (const char *glue : {"white PVA", "yellow PVA", "cross-linked PVA", "hot hide"}) {
    cases::Case c = sound_case();
    c.board_glue.kind = glue;
    EXPECT_NE(verdict_on(c).kind, Verdict::do_not) << glue << ": left to the simulation";
  }
}

// The wood alone keeps a tenth of what is clamped (trade reference, no slip at all [E]).
TEST(RefuseBefore, FretsInTheShaftItself)
{
  cases::Case c = sound_case();
  c.board_glue.kind = "one piece";
  expect_refused(c, "Board and shaft are one piece");
}

// Common practice: a bow below 0.1 mm is noise, a twist below 0.25 degrees nobody notices.
TEST(RefuseBefore, NothingToDo)
{
  cases::Case c = sound_case();
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.09e-3;
  c.found.twist = 0.2 * degree;
  expect_refused(c, "Nothing to do");
  c.found.twist = 0.3 * degree;
  EXPECT_NE(verdict_on(c).kind, Verdict::do_not) << "there is a twist";
  c.found.twist = 0.2 * degree;
  c.found.bow_bass = 0.3e-3;
  c.target.rod = cases::RodState::slack;
  EXPECT_NE(verdict_on(c).kind, Verdict::do_not) << "one edge is bowed";
}

// Common practice, with a working single-action rod: 0 to 0.15 mm unstrung is what is wanted.
TEST(RefuseBefore, BowAlreadyWithinTheWantedRange)
{
  cases::Case c = sound_case();
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.14e-3;
  c.found.twist = 0;
  c.target.rod = cases::RodState::set;
  expect_refused(c, "Nothing to do");
  c.found.bow_centre = -0.14e-3;
  EXPECT_NE(verdict_on(c).kind, Verdict::do_not) << "a rod of one action cannot pull a back-bow up";
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
  EXPECT_EQ(verdict_on(c).reasons.size(), 2u);
}

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
  EXPECT_EQ(solver::judge_lift(c, {0.3e-3, 0.3e-3, 0.3e-3}, {}).kind, Verdict::do_not);
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
