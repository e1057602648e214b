// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/both_units.h"
#include "tests/unit/intake_helpers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

// The questions one by one: what each kind of answer does.
namespace
{
using namespace overbend::cases;
using overbend::tests::say;
using overbend::tests::some_names;
using ::testing::HasSubstr;
using ::testing::Not;

using State = Intake::State;

Intake electric()
{
  Intake intake(some_names(), Intake::Extent::all);
  intake.choose_preset("electric");
  return intake;
}

std::string at(const Intake &intake)
{
  return intake.field() == nullptr ? "" : intake.field()->name();
}

std::optional<std::string> given(const Intake &intake, const char *section, const char *key)
{
  return intake.answers().given(*find_declaration(section, key));
}

TEST(IntakeAsks, EveryDeclaredKeyOnceButThoseOfPhases)
{
  std::multiset<std::string> asked, declared;
  for (const BenchSection &section : bench_order())
    for (const Declaration *field : section.fields)
      asked.insert(field->name());
  for (const Declaration &declaration : declarations())
    if (!is_repeated(declaration.section))
      declared.insert(declaration.name());
  EXPECT_EQ(asked, declared);
}

// Keys asked for one after the other when every question is skipped.
std::vector<std::string> asked_by(Intake &intake)
{
  std::vector<std::string> asked;
  while (intake.state() == State::asking) {
    if (intake.field() != nullptr)
      asked.push_back(intake.field()->name());
    intake.reply("");
  }
  return asked;
}

TEST(IntakeAsks, AtMostTwentyFiveQuestionsAndTheRestOnRequest)
{
  using ::testing::Contains;
  for (const char *cause : {"unknown", "hot strung", "years of pull"}) {
    Intake intake(some_names());
    intake.choose_preset("electric");
    say(intake, {"go warp.cause", cause, "go found.bow", "1 mm", "go preset"});
    const std::vector<std::string> first = asked_by(intake);
    EXPECT_LE(first.size() + 2, 25u) << cause; // unit and gaps beside them
    for (const char *needed : {"found.bow", "found.twist", "glue.board", "finish.kind"})
      EXPECT_THAT(first, Contains(needed));
    EXPECT_EQ(std::count(first.begin(), first.end(), "warp.hot_time"),
              cause == std::string("hot strung"));
    EXPECT_EQ(std::count(first.begin(), first.end(), "warp.pull_time"),
              cause == std::string("years of pull"));
    EXPECT_THAT(intake.prompt(), HasSubstr("more asks what has usual values"));
    say(intake, {"more"});
    const std::vector<std::string> rest = asked_by(intake);
    EXPECT_GT(rest.size(), 100u);
    for (const std::string &key : first)
      EXPECT_THAT(rest, Not(Contains(key)));
  }
}

TEST(IntakeAsks, WithoutAPresetAlsoWhatNothingElseGives)
{
  Intake intake(some_names());
  EXPECT_THAT(asked_by(intake), ::testing::Contains("neck.frets"));
}

TEST(IntakeAsks, CountsTheQuestionsThatItAsks)
{
  Intake intake(some_names());
  intake.choose_preset("electric");
  say(intake, {"mm"});
  EXPECT_THAT(intake.prompt(), HasSubstr("1/2"));
  EXPECT_THAT(intake.prompt(), Not(HasSubstr("/18")));
}

TEST(IntakeAsks, TheReadingsBeforeTheSetUpAndTheRodBeforeTheReadings)
{
  std::vector<std::string> order;
  for (const BenchSection &section : bench_order())
    order.push_back(section.name);
  const auto place = [&](const char *name) {
    return std::find(order.begin(), order.end(), name) - order.begin();
  };
  EXPECT_LT(place("warp"), place("neck"));
  EXPECT_LT(place("rod"), place("found"));
  EXPECT_LT(place("found"), place("bench"));
  EXPECT_LT(place("numerics"), static_cast<std::ptrdiff_t>(order.size()));
}

TEST(IntakeAsks, ShowsSentenceUnitRangeAndUsualValue)
{
  Intake intake = electric();
  say(intake, {"go neck.nut_width"});
  const std::string prompt = intake.prompt();
  EXPECT_THAT(prompt, HasSubstr("nut width: Width of the board at the nut."));
  EXPECT_THAT(prompt, HasSubstr("20 mm (0.79 in) to 80 mm (3.15 in)"));
  EXPECT_THAT(prompt, HasSubstr("mm, cm, m, in or thou"));
  EXPECT_THAT(prompt, HasSubstr("[42 mm (1.65 in), preset]"));
}

TEST(IntakeAsks, HasBothUnitsBesideEveryNumberOfPromptAndHelp)
{
  Intake intake = electric();
  for (const BenchSection &section : bench_order())
    for (const Declaration *field : section.fields) {
      intake.reply("go " + field->name());
      EXPECT_THAT(overbend::tests::bare_numbers(intake.prompt()), ::testing::IsEmpty())
          << field->name();
      EXPECT_THAT(overbend::tests::bare_numbers(intake.reply("help")), ::testing::IsEmpty())
          << field->name();
    }
}

TEST(IntakeAsks, ShowsTheCautionOfASectionWhereTheUserActs)
{
  Intake intake = electric();
  say(intake, {"go rod"});
  EXPECT_THAT(intake.heading(), HasSubstr("!! Strings down first."));
}

TEST(IntakeAsks, TakesAValueWithItsUnitAndGoesOn)
{
  Intake intake = electric();
  const std::string said = say(intake, {"go neck.nut_width", "1 11/16 in"});
  EXPECT_THAT(said, HasSubstr("nut_width = \"1 11/16 in\", that is 42.9 mm (1.69 in)"));
  EXPECT_EQ(given(intake, "neck", "nut_width"), "1 11/16 in");
  EXPECT_EQ(at(intake), "neck.width_at_12");
}

TEST(IntakeAsks, RefusesABareNumberWithTheRemedyOfTheUnit)
{
  Intake intake = electric();
  const std::string said = say(intake, {"go neck.nut_width", "43"});
  EXPECT_THAT(said, HasSubstr("\"43\" has no unit"));
  EXPECT_THAT(said, HasSubstr("such as \"43 mm\""));
  EXPECT_EQ(at(intake), "neck.nut_width");
  EXPECT_FALSE(given(intake, "neck", "nut_width"));
}

TEST(IntakeAsks, PutsTheChosenUnitOnBareLengthsOnly)
{
  Intake intake = electric();
  say(intake, {"in", "go neck.nut_width", "1 11/16"});
  EXPECT_EQ(given(intake, "neck", "nut_width"), "1 11/16 in");
  EXPECT_THAT(say(intake, {"go room.temperature", "70"}), HasSubstr("has no unit"));
  EXPECT_THAT(say(intake, {"go board.radius", "12"}), HasSubstr("radius = \"12 in\""));
  EXPECT_THAT(say(intake, {"go neck.frets", "21"}), HasSubstr("frets = 21"));
}

TEST(IntakeAsks, RefusesAUnitThatIsNone)
{
  Intake intake = electric();
  EXPECT_THAT(say(intake, {"furlong"}), HasSubstr("No: "));
  EXPECT_EQ(intake.answers().unit(), "");
}

TEST(IntakeAsks, SaysRangeErrorsAtOnce)
{
  Intake intake = electric();
  EXPECT_THAT(say(intake, {"go neck.nut_width", "430 mm"}),
              HasSubstr("it must lie between 20 mm (0.79 in) and 80 mm (3.15 in)"));
  EXPECT_EQ(at(intake), "neck.nut_width");
}

TEST(IntakeAsks, SuggestsTheNearestWordAndName)
{
  Intake intake = electric();
  EXPECT_THAT(say(intake, {"go finish.kind", "nitro laquer"}),
              HasSubstr("did you mean \"nitro lacquer\"?"));
  EXPECT_THAT(say(intake, {"go shaft.wood", "sugar mapel"}),
              HasSubstr("did you mean \"sugar maple\"?"));
  EXPECT_THAT(say(intake, {"go preset", "electrik"}), HasSubstr("did you mean \"electric\"?"));
}

TEST(IntakeAsks, TakesUnknownWhereItIsAcceptedAndRefusesItElsewhere)
{
  Intake intake = electric();
  say(intake, {"go found.twist", "unknown"});
  EXPECT_EQ(given(intake, "found", "twist"), "unknown");
  say(intake, {"go finish.kind", "unknown"});
  EXPECT_EQ(given(intake, "finish", "kind"), "unknown");
  EXPECT_THAT(say(intake, {"go neck.nut_width", "unknown"}), HasSubstr("unknown is no answer"));
  EXPECT_FALSE(given(intake, "neck", "nut_width"));
}

TEST(IntakeAsks, SkipTakesTheUsualValueAndForgetsAnEarlierAnswer)
{
  Intake intake = electric();
  say(intake, {"go neck.nut_width", "45 mm", "back"});
  EXPECT_EQ(at(intake), "neck.nut_width");
  EXPECT_THAT(intake.prompt(), HasSubstr("[45 mm (1.77 in), answered; skip clears it]"));
  say(intake, {"skip"});
  EXPECT_FALSE(given(intake, "neck", "nut_width"));
  EXPECT_EQ(at(intake), "neck.width_at_12");
}

TEST(IntakeAsks, AnEmptyLineKeepsAnAnswerAndNothingForgetsThePreset)
{
  Intake intake = electric();
  say(intake, {"go neck.nut_width", "45 mm", "back", ""});
  EXPECT_EQ(given(intake, "neck", "nut_width"), "45 mm");
  say(intake, {"go preset", "skip"});
  EXPECT_EQ(given(intake, "", "preset"), "electric");
  say(intake, {"go preset", "none"});
  EXPECT_EQ(given(intake, "", "preset"), "none");
}

TEST(IntakeAsks, SkipSaysWhenNothingHasAValue)
{
  Intake intake(some_names());
  EXPECT_THAT(say(intake, {"go neck.nut_width", ""}), HasSubstr("not complete without"));
}

TEST(IntakeAsks, BackGoesOverTheBorderOfSectionsAndStopsAtTheFirst)
{
  Intake intake = electric();
  say(intake, {"go neck"});
  const std::string first = at(intake);
  say(intake, {"back"});
  EXPECT_NE(at(intake).substr(0, 5), "neck.");
  say(intake, {"skip"});
  EXPECT_EQ(at(intake), first);
  for (int i = 0; i < 500; ++i)
    say(intake, {"back"});
  EXPECT_EQ(at(intake), "");
  EXPECT_THAT(say(intake, {"back"}), HasSubstr("first question"));
  EXPECT_EQ(intake.state(), State::asking);
}

TEST(IntakeAsks, BackFromTheReviewReturnsToTheLastQuestion)
{
  Intake intake = electric();
  say(intake, {"end"});
  EXPECT_EQ(intake.state(), State::reviewing);
  say(intake, {"back"});
  EXPECT_EQ(intake.state(), State::asking);
  EXPECT_NE(at(intake), "");
}

TEST(IntakeAsks, NextLeavesTheRestOfASectionAndSkippingAllEndsInTheReview)
{
  Intake intake = electric();
  say(intake, {"go neck", "next"});
  EXPECT_NE(at(intake).substr(0, 5), "neck.");
  int questions = 0;
  while (intake.state() == State::asking && questions < 1000) {
    say(intake, {"skip"});
    ++questions;
  }
  EXPECT_EQ(intake.state(), State::reviewing);
}

TEST(IntakeAsks, LeavesOutWhatTheChosenKindDoesNotHave)
{
  Intake intake = electric();
  // The preset has a flat headstock.
  EXPECT_THAT(say(intake, {"go headstock.scarf_start"}), HasSubstr("does not go with the kind"));
  say(intake, {"go headstock.kind", "scarf", "go headstock.scarf_start"});
  EXPECT_EQ(at(intake), "headstock.scarf_start");
  say(intake, {"6 mm", "go headstock.kind", "flat"});
  EXPECT_THAT(intake.answers().case_text(), Not(HasSubstr("scarf_start")));
}

TEST(IntakeAsks, HelpExplainsWithoutMovingOn)
{
  Intake intake = electric();
  say(intake, {"go shaft.wood"});
  for (const char *word : {"help", "?", "HELP"})
    EXPECT_THAT(say(intake, {word}), HasSubstr("known woods are"));
  EXPECT_EQ(at(intake), "shaft.wood");
}

TEST(IntakeAsks, TakesAQuotedWordOfItsOwnAsAValue)
{
  Intake intake = electric();
  say(intake, {"go title", "\"back\""});
  EXPECT_EQ(given(intake, "", "title"), "back");
}

TEST(IntakeAsks, ReadsWindingSticksAsARiseOverALength)
{
  Intake intake = electric();
  // atan(1.5 / 300) = 0.28648 deg, to a thousandth.
  EXPECT_THAT(say(intake, {"go found.twist", "1.5 mm over 300 mm"}),
              HasSubstr("twist = \"0.286 deg\""));
  say(intake, {"go found.twist", "-1.5 mm over 300 mm"});
  EXPECT_EQ(given(intake, "found", "twist"), "-0.286 deg");
}

TEST(IntakeAsks, QuitLeavesAndThenTakesNothing)
{
  Intake intake = electric();
  say(intake, {"quit"});
  EXPECT_EQ(intake.state(), State::left);
  EXPECT_EQ(say(intake, {"45 mm"}), "");
  EXPECT_EQ(intake.prompt(), "");
}
} // namespace
