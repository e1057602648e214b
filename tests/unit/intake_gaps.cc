// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/case.h"
#include "cases/intake/gap_curve.h"
#include "cases/intake/gaps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

// The bow told from gaps, against the definition (chord over the rests minus the line), and how it
// is put into words and letters.
namespace
{
using namespace overbend::cases;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr double scale = 0.648;
constexpr Rests rests = {1, 16};

double x(int fret)
{
  return fret_position(scale, fret);
}

// Gaps under an edge z = offset + slope x over a line.
Gaps gaps_over(const std::function<double(double)> &line, double offset, double slope)
{
  Gaps gaps;
  for (const int fret : {1, 3, 5, 7, 9, 12, 14, 16})
    gaps[fret] = offset + slope * x(fret) - line(x(fret));
  return gaps;
}

double parabola(double at)
{
  return 4e-3 * (at - x(1)) * (at - x(16)) / ((x(16) - x(1)) * (x(16) - x(1)));
}

TEST(BowFromGaps, IsTheGapItselfWhenTheEdgeRestsOnBothRestFrets)
{
  const Gaps gaps = {{1, 0}, {7, 0.65e-3}, {16, 0}};
  EXPECT_DOUBLE_EQ(bow_from_gaps(gaps, scale, rests, 7).value(), 0.65e-3);
}

TEST(BowFromGaps, IsMinusTheEndGapsWhenTheEdgeBalancesOnTheHump)
{
  const Gaps gaps = {{1, 0.3e-3}, {7, 0}, {16, 0.3e-3}};
  EXPECT_NEAR(bow_from_gaps(gaps, scale, rests, 7).value(), -0.3e-3, 1e-15);
}

TEST(BowFromGaps, DoesNotDependOnHowTheEdgeLies)
{
  for (const auto &[offset, slope] :
       {std::pair(0.0, 0.0), std::pair(2e-3, 0.0), std::pair(1e-3, 4e-3), std::pair(3e-3, -5e-3)}) {
    const Gaps gaps = gaps_over(parabola, offset, slope);
    // Chord minus line: the parabola vanishes at both rests.
    for (const int fret : {3, 7, 12})
      EXPECT_NEAR(bow_from_gaps(gaps, scale, rests, fret).value(), -parabola(x(fret)), 1e-15);
  }
}

TEST(BowFromGaps, ChangesItsSignWithTheLine)
{
  const auto back = [](double at) { return -parabola(at); };
  EXPECT_NEAR(bow_from_gaps(gaps_over(back, 2e-3, 0), scale, rests, 7).value(), parabola(x(7)),
              1e-15);
}

TEST(BowFromGaps, NeedsBothRestsAndTheFretItself)
{
  EXPECT_FALSE(bow_from_gaps({{1, 0}, {7, 1e-3}}, scale, rests, 7));
  EXPECT_FALSE(bow_from_gaps({{7, 1e-3}, {16, 0}}, scale, rests, 7));
  EXPECT_FALSE(bow_from_gaps({{1, 0}, {16, 0}}, scale, rests, 7));
  EXPECT_FALSE(bow_from_gaps({{1, 0}, {7, 1e-3}, {16, 0}}, scale, {16, 1}, 7));
  EXPECT_FALSE(bow_from_gaps({{1, 0}, {7, 1e-3}, {16, 0}}, 0, rests, 7));
}

TEST(BowFromGaps, FindsTheDeepestFretEitherWay)
{
  EXPECT_EQ(deepest_fret({{1, 0}, {5, 0.2e-3}, {7, 0.4e-3}, {9, 0.4e-3}, {16, 0}}, scale, rests),
            7);
  EXPECT_EQ(deepest_fret({{1, 0.5e-3}, {5, 0.3e-3}, {9, 0}, {16, 0.5e-3}}, scale, rests), 9);
  EXPECT_EQ(deepest_fret({{1, 0}, {16, 0}}, scale, rests), 0);
}

TEST(ShapeInWords, NamesForwardBowBackBowAndStraight)
{
  const Gaps forward = {{1, 0}, {5, 0.5e-3}, {7, 0.65e-3}, {12, 0.4e-3}, {16, 0}};
  EXPECT_THAT(shape_in_words(forward, scale, rests), HasSubstr("forward bow of 0.65 mm (26 thou), "
                                                               "most at fret 7"));
  EXPECT_THAT(shape_in_words(forward, scale, rests), Not(HasSubstr("hump")));
  const Gaps back = {{1, 0.4e-3}, {7, 0}, {16, 0.4e-3}};
  EXPECT_THAT(shape_in_words(back, scale, rests), HasSubstr("back-bow of 0.40 mm"));
  EXPECT_THAT(shape_in_words({{1, 0}, {7, 0.03e-3}, {16, 0}}, scale, rests),
              HasSubstr("straight within 0.05 mm"));
  EXPECT_THAT(shape_in_words({{1, 0.2e-3}, {4, 0.5e-3}, {11, 0}, {16, 0.2e-3}}, scale, rests),
              HasSubstr("S-shaped: forward"));
}

TEST(ShapeInWords, FindsAHumpInAForwardBowAndOnAStraightBoard)
{
  const Gaps in_bow = {{1, 0},       {3, 0.3e-3},  {5, 0.5e-3},  {7, 0.6e-3},
                       {9, 0.55e-3}, {12, 0.1e-3}, {14, 0.3e-3}, {16, 0}};
  EXPECT_THAT(shape_in_words(in_bow, scale, rests), HasSubstr("hump at fret 12"));
  const Gaps on_straight = {{1, 0.2e-3}, {5, 0.2e-3},  {9, 0.2e-3},
                            {12, 0},     {14, 0.2e-3}, {16, 0.2e-3}};
  EXPECT_THAT(shape_in_words(on_straight, scale, rests), HasSubstr("hump at fret 12"));
}

TEST(ShapeInWords, TakesAnEvenBowInEitherDirectionForNoHump)
{
  const auto back = [](double at) { return -parabola(at); };
  for (const Gaps &gaps : {gaps_over(parabola, 0, 0), gaps_over(back, 2e-3, 0)})
    EXPECT_THAT(shape_in_words(gaps, scale, rests), Not(HasSubstr("hump")));
}

TEST(ShapeInWords, SaysWhatIsMissing)
{
  EXPECT_THAT(shape_in_words({{7, 1e-3}}, scale, rests), HasSubstr("still to be read"));
  EXPECT_THAT(shape_in_words({{1, 0}, {16, 0}}, scale, rests), HasSubstr("no fret between"));
}

TEST(GapCurve, DrawsAForwardBowBelowTheChordAndStatesItsScale)
{
  const std::string curve = gap_curve({{1, 0}, {7, 0.65e-3}, {16, 0}}, scale, rests);
  // 0.65 mm in rows of 0.1 mm: the reading is on row 6 or 7, and the chord on the first.
  EXPECT_THAT(curve, HasSubstr("a row is 0.10 mm (3.9 thou)"));
  EXPECT_EQ(curve.find("     0.00 mm O..---"), 0u);
  // (x(16) - x(1)) / 60 columns = (390.8 - 36.4) / 60 = 5.91 mm; twice that over 0.1 mm is 118.
  EXPECT_THAT(curve, HasSubstr("a column 5.9 mm"));
  EXPECT_THAT(curve, HasSubstr("about 118 times too large"));
  EXPECT_THAT(curve, HasSubstr("\n   fret      1"));
}

TEST(GapCurve, DrawsABackBowAboveTheChord)
{
  const std::string curve = gap_curve({{1, 0.4e-3}, {7, 0}, {16, 0.4e-3}}, scale, rests);
  EXPECT_LT(curve.find("    -0.40 mm"), curve.find("     0.00 mm"));
}

TEST(GapCurve, IsEmptyWithoutReadingsAndDrawsTheEdgeBeforeTheRestsAreRead)
{
  EXPECT_EQ(gap_curve({}, scale, rests), "");
  EXPECT_THAT(gap_curve({{7, 0.3e-3}}, scale, rests), HasSubstr("O"));
}
} // namespace
