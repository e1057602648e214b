// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/strips.h"
#include "cases/check/check_names.h"
#include "cases/read/laminations.h"
#include "cases/read/read_case.h"
#include "cases/show/to_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// A shaft glued up from strips: read, checked, printed and read again.
namespace
{
using namespace overbend::cases;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr double degree = 3.14159265358979323846 / 180;

Case with(const std::string &more, const std::string &preset = "electric")
{
  return parse_case("preset = \"" + preset + "\"\n[found]\nbow = \"1 mm\"\n" + more, "test.toml");
}

std::string refusal(const std::string &more)
{
  try {
    const Case result = with(more);
    check_names(result, {{"wenge", result.neck.shaft.wood, result.neck.board.wood},
                         {"white PVA"},
                         {result.strings.set, result.strings_found.set},
                         {result.tuners.kind}});
  } catch (const CaseError &error) {
    return error.what();
  }
  return "";
}

const std::string three = "[[lamination]]\nwidth = \"24 mm\"\n"
                          "[[lamination]]\nwidth = \"6 mm\"\nwood = \"wenge\"\n"
                          "grain = \"quarter\"\nrun_out_across = \"1 in 20\"\n"
                          "[[lamination]]\nwidth = \"24 mm\"\nrun_out_depth = \"2 %\"\n";

const std::string scarf = "[headstock]\nkind = \"scarf\"\nangle = \"14 deg\"\n";

TEST(Laminations, NoneIsOnePieceAsEver)
{
  const Case result = with("");
  EXPECT_TRUE(result.neck.laminations.empty());
  EXPECT_FALSE(result.neck.headstock.laminated);
  EXPECT_EQ(shaft_in_words(result.neck), result.neck.shaft.wood);
  EXPECT_THAT(to_text(result), Not(HasSubstr("lamination")));
}

TEST(Laminations, AreReadFromBassToTrebleAndTakeFromTheShaftWhatTheyDoNotSay)
{
  const Case result = with("[shaft]\ngrain = \"rift\"\nrun_out_depth = \"-1 %\"\n"
                           "grain_at_body = \"60 deg\"\n" +
                           three);
  const auto &strips = result.neck.laminations;
  ASSERT_EQ(strips.size(), 3u);
  EXPECT_DOUBLE_EQ(strips[1].width, 6e-3);
  EXPECT_EQ(strips[0].piece.wood, result.neck.shaft.wood);
  EXPECT_EQ(strips[1].piece.wood, "wenge");
  EXPECT_DOUBLE_EQ(strips[0].piece.grain.ring_angle, 45 * degree);
  EXPECT_DOUBLE_EQ(strips[0].piece.grain.ring_angle_at_end.value(), 60 * degree);
  EXPECT_DOUBLE_EQ(strips[0].piece.grain.run_out_depth, -0.01);
  EXPECT_DOUBLE_EQ(strips[1].piece.grain.ring_angle, 90 * degree);
  EXPECT_FALSE(
      strips[1].piece.grain.ring_angle_at_end); // its own grain is that of its whole length
  EXPECT_DOUBLE_EQ(strips[1].piece.grain.run_out_across, 0.05);
  EXPECT_DOUBLE_EQ(strips[2].piece.grain.run_out_depth, 0.02);
  EXPECT_THAT(shaft_in_words(result.neck), HasSubstr("3 strips: "));
}

TEST(Laminations, LieWithTheirMiddleOnTheCentreLine)
{
  const auto lines = lines_between(with(three).neck.laminations);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_NEAR(lines[0], -3e-3, 1e-15);
  EXPECT_NEAR(lines[1], 3e-3, 1e-15);
  const auto uneven = lines_between({{0.010, {}}, {0.030, {}}, {0.020, {}}});
  EXPECT_NEAR(uneven[0], -0.020, 1e-15);
  EXPECT_NEAR(uneven[1], 0.010, 1e-15);
}

TEST(Laminations, RunOnIntoTheHeadstockUnlessAScarfedOneHasItsOwnWood)
{
  EXPECT_TRUE(with(three).neck.headstock.laminated);
  EXPECT_TRUE(with(scarf + three).neck.headstock.laminated);
  const Case own = with(scarf + "grain = \"quarter\"\n" + three);
  EXPECT_FALSE(own.neck.headstock.laminated);
  EXPECT_DOUBLE_EQ(own.neck.headstock.piece.grain.ring_angle, 90 * degree);
  EXPECT_TRUE(with(scarf + "wood = \"as shaft\"\n" + three).neck.headstock.laminated);
  EXPECT_FALSE(with(scarf).neck.headstock.laminated);
}

TEST(Laminations, RunOnIntoABoardOfOnePieceWithTheShaft)
{
  EXPECT_FALSE(with(three).neck.board_laminated);
  const std::string one_piece = "[shaft]\nwood = \"sugar maple\"\ngrain = \"flat\"\n"
                                "[board]\nwood = \"sugar maple\"\ngrain = \"flat\"\n"
                                "[glue]\nboard = \"one piece\"\n";
  EXPECT_TRUE(with(one_piece + three).neck.board_laminated);
  EXPECT_FALSE(with(one_piece).neck.board_laminated);
}

TEST(Laminations, ComeBackIdenticalFromThePrintedCase)
{
  for (const std::string &more : {three, scarf + three, scarf + "wood = \"wenge\"\n" + three,
                                  "[shaft]\ngrain = \"rift\"\ngrain_at_body = \"60 deg\"\n" +
                                      three + "run_out_across_at_body = \"-3 %\"\n"}) {
    const Case first = with(more);
    const std::string printed = to_text(first);
    const Case second = parse_case(printed, "printed");
    EXPECT_EQ(to_text(second), printed);
    ASSERT_EQ(second.neck.laminations.size(), first.neck.laminations.size());
    EXPECT_EQ(second.neck.headstock.laminated, first.neck.headstock.laminated);
    EXPECT_EQ(second.neck.headstock.piece.wood, first.neck.headstock.piece.wood);
    for (std::size_t i = 0; i < first.neck.laminations.size(); ++i) {
      const Lamination &a = first.neck.laminations[i], &b = second.neck.laminations[i];
      EXPECT_EQ(a.width, b.width);
      EXPECT_EQ(a.piece.wood, b.piece.wood);
      EXPECT_EQ(a.piece.grain.ring_angle, b.piece.grain.ring_angle);
      EXPECT_EQ(a.piece.grain.ring_angle_at_end, b.piece.grain.ring_angle_at_end);
      EXPECT_EQ(a.piece.grain.run_out_across_at_end, b.piece.grain.run_out_across_at_end);
    }
  }
}

// Line and remedy of each contradiction.
TEST(Laminations, ThatContradictAreRefusedAtTheirLine)
{
  EXPECT_EQ(refusal(three), "");
  EXPECT_THAT(refusal("[[lamination]]\nwidth = \"60 mm\"\n"),
              HasSubstr("test.toml:4: a shaft of a single strip is one piece; tell its wood"));
  EXPECT_THAT(
      refusal("[[lamination]]\nwidth = \"10 mm\"\n[[lamination]]\nwidth = \"10 mm\"\n"),
      HasSubstr(
          "test.toml:4: the strips are 20.0 mm (0.79 in) wide together, less than the board"));
  EXPECT_THAT(refusal(three + "[[lamination]]\nwidth = \"150 mm\"\n"),
              HasSubstr("test.toml:5: the outer strip on the bass side lies beside the neck"));
  EXPECT_THAT(refusal("[[lamination]]\nwood = \"wenge\"\n"),
              HasSubstr("test.toml:4: the strip has no `width`; write what it measures"));
  EXPECT_THAT(refusal("[lamination]\nwidth = \"24 mm\"\n"),
              HasSubstr("test.toml:4: [lamination] stands for one of several laminations; write "
                        "[[lamination]]"));
  EXPECT_THAT(refusal("[[lamination]]\nwidth = \"24 mm\"\nwod = \"wenge\"\n"),
              HasSubstr("test.toml:6: there is no key `wod` in [lamination]; did you mean"));
  EXPECT_THAT(refusal("[[lamination]]\nwidth = \"24\"\n"),
              HasSubstr("test.toml:5: lamination.width"));
  EXPECT_THAT(
      refusal("[[lamination]]\nwidth = \"30 mm\"\n[[lamination]]\nwidth = \"30 mm\"\nwood = "
              "\"wenje\"\n"),
      HasSubstr("test.toml:8: lamination[2].wood: there is no wood \"wenje\" in the tables; "
                "did you mean \"wenge\"?"));
  std::string many;
  for (int i = 0; i < 31; ++i)
    many += "[[lamination]]\nwidth = \"2 mm\"\n";
  EXPECT_THAT(refusal(many), HasSubstr("test.toml:64: there are more than 30 strips"));
}
} // namespace
