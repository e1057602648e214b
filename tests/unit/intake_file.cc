// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/show/to_text.h"
#include "tests/unit/intake_helpers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// From answers to the case file, and what the gaps put into it.
namespace
{
using namespace overbend::cases;
using overbend::tests::say;
using overbend::tests::some_names;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

Intake electric()
{
  Intake intake(some_names(), Intake::Extent::all);
  intake.choose_preset("electric");
  return intake;
}

TEST(IntakeFile, ReadsBackAsTheSameCaseAsAFileByHand)
{
  Intake intake = electric();
  say(intake, {"in",
               "go title",
               "left in a hot \"van\"",
               "go warp.cause",
               "Hot_Strung",
               "go warp.temperature",
               "160 degF",
               "go rod.state",
               "broken",
               "go found.rest_fret_near_body",
               "Join",
               "go found.bow",
               "0.045",
               "go found.twist",
               "unknown",
               "go found.open_crack",
               "no",
               "go neck.frets",
               " 023 ",
               "go glue.board",
               "white pva",
               "go probe.position",
               "fret 7.5",
               "go probe.across",
               "1/2",
               "go target.rod",
               "broken"});
  const std::string by_hand = R"(
title = "left in a hot \"van\""
preset = "electric"
[neck]
frets = 23
[rod]
state = "broken"
[glue]
board = "white pva"
[found]
bow = "0.045 in"
twist = "unknown"
rest_fret_near_body = "join"
open_crack = false
[warp]
cause = "hot strung"
temperature = "160 degF"
[probe]
position = "fret 7.5"
across = 0.5
[target]
rod = "broken"
)";
  ASSERT_FALSE(intake.answers().problem()) << intake.answers().problem()->what;
  EXPECT_EQ(to_text(parse_case(intake.answers().case_text(), "asked")),
            to_text(parse_case(by_hand, "by hand")));
}

TEST(IntakeFile, CarriesTheCautionsAsRemarks)
{
  Intake intake = electric();
  for (const std::string &caution : intake_cautions())
    EXPECT_THAT(intake.answers().case_text(), HasSubstr("# " + caution));
}

TEST(IntakeFile, WorksTheBowsOutFromTheGapsAndSaysSo)
{
  Intake intake = electric();
  say(intake, {"go found.bow", "back", "back", "back"}); // to the centre line
  EXPECT_THAT(intake.prompt(), HasSubstr("centre line"));
  EXPECT_THAT(intake.prompt(), HasSubstr("(1 and 16)"));
  say(intake, {"1 0", "fret 5 0.5 mm", "7: 26 thou"});
  const std::string said = say(intake, {"16 = 0"});
  EXPECT_THAT(said, HasSubstr("Scale: a row is"));
  EXPECT_THAT(said, HasSubstr("forward bow of 0.66 mm (26 thou), most at fret 7"));
  say(intake, {"skip", "1 0", "7 0.7 mm", "16 0", "skip", "skip"});
  ASSERT_EQ(intake.field()->name(), "found.bow");
  EXPECT_THAT(intake.prompt(), HasSubstr("[0.6604 mm (26 thou), from the gaps at the frets]"));
  const std::string text = intake.answers().case_text();
  EXPECT_THAT(text, HasSubstr("# Gaps under the edge, centre: fret 1 0 mm, fret 5 0.5 mm, fret 7 "
                              "0.6604 mm, fret 16 0 mm\n"));
  const Case read = parse_case(text, "asked");
  EXPECT_EQ(read.found.bow_fret, 7);
  EXPECT_NEAR(read.found.bow_centre, 26 * 25.4e-6, 1e-12);
  EXPECT_NEAR(read.found.bow_bass, 0.7e-3, 1e-12);
  EXPECT_EQ(read.found.bow_treble, read.found.bow_centre); // not read: as the centre
}

TEST(IntakeFile, LetsABowToldByHandStandAgainstTheGaps)
{
  Intake intake = electric();
  say(intake, {"go found.bow", "back", "back", "back", "1 0", "7 0.5 mm", "16 0"});
  EXPECT_THAT(say(intake, {"go found.bow", "0.8 mm"}), HasSubstr("the gaps give 0.5 mm"));
  EXPECT_THAT(intake.answers().case_text(), HasSubstr("bow = \"0.8 mm\""));
  EXPECT_THAT(intake.answers().case_text(), Not(HasSubstr("bow_fret")));
}

TEST(IntakeFile, ForgetsTheLastGapOnBackAndRefusesGapsThatCannotBe)
{
  Intake intake = electric();
  say(intake, {"go found.bow", "back", "back", "back"});
  EXPECT_THAT(say(intake, {"7 -0.2 mm"}), HasSubstr("No: "));
  EXPECT_THAT(say(intake, {"7 0.2"}), HasSubstr("has no unit"));
  EXPECT_THAT(say(intake, {"30 0.2 mm"}), HasSubstr("there is no fret 30"));
  EXPECT_THAT(say(intake, {"0.2 mm"}), HasSubstr("with its fret"));
  EXPECT_TRUE(intake.answers().gaps(EdgeLine::centre).empty());
  say(intake, {"7 0.2 mm", "9 0.3 mm"});
  EXPECT_THAT(say(intake, {"back"}), HasSubstr("fret 9 is forgotten"));
  EXPECT_EQ(intake.answers().gaps(EdgeLine::centre).size(), 1u);
}

TEST(IntakeFile, IsMarkedUnfinishedInItsFirstLineUntilItIsAGoodCase)
{
  Intake intake = electric();
  EXPECT_THAT(intake.answers().case_text(), StartsWith("# UNFINISHED"));
  EXPECT_THROW(parse_case(intake.answers().case_text(), "asked"), CaseError);
  say(intake, {"go found.bow", "1 mm"});
  EXPECT_THAT(intake.answers().case_text(), Not(HasSubstr("UNFINISHED")));
}

TEST(IntakeFile, NamesTheKeyOfAContradictionInTheReviewAndLetsOneGoBack)
{
  Intake intake = electric();
  say(intake, {"go found.bow", "1 mm", "go neck.join_fret", "23", "end"});
  EXPECT_THAT(intake.prompt(), HasSubstr("lies beyond the last fret"));
  EXPECT_THAT(intake.prompt(), HasSubstr("`go neck.join_fret`"));
  EXPECT_THAT(say(intake, {"nonsense"}), HasSubstr("write, back, go KEY or quit"));
  say(intake, {"go neck.join_fret", "16", "end"});
  EXPECT_THAT(intake.prompt(), HasSubstr("a complete case"));
  say(intake, {"write"});
  EXPECT_EQ(intake.state(), Intake::State::written);
}

TEST(IntakeFile, GoesOnFromItsOwnFileWithTheGaps)
{
  Intake first = electric();
  say(first, {"go neck.nut_width", "43 mm", "go found.bow", "back", "back", "back", "1 0",
              "7 0.5 mm", "16 0"});
  const std::string text = first.answers().case_text();
  Intake second(some_names(), Intake::Extent::all);
  second.resume(text, "case.toml");
  EXPECT_EQ(second.answers().case_text(), text);
  // The bow still follows the gaps.
  say(second, {"go found.bow", "back", "back", "back", "7 0.9 mm"});
  EXPECT_THAT(second.answers().case_text(), HasSubstr("bow = \"0.9 mm\""));
}

TEST(IntakeFile, DoesNotGoOnFromWhatItCannotAsk)
{
  Intake intake(some_names());
  EXPECT_THROW(intake.resume("[[phase]]\nkind = \"rest\"\n", "case.toml"), CaseError);
  EXPECT_THROW(intake.resume("[[lamination]]\nwidth = \"9 mm\"\n", "case.toml"), CaseError);
  EXPECT_THROW(intake.resume("[neck]\nlenght = 3\n", "case.toml"), CaseError);
  EXPECT_THROW(intake.resume("[neck]\nnut_width = \"4 mm\"\n", "case.toml"), CaseError);
}
} // namespace
