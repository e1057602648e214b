// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/unit/readings_lines.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

using namespace overbend::solver;
using namespace overbend::tests;

namespace
{
// Rounding of heights of some mm: 1e-3 * 2^-53 * a few operations.
constexpr double rounding = 1e-17;
} // namespace

// Source: chord over a circle's parabola, k/2 (m - a)(b - m) [C].
TEST(BowReading, ParabolaGivesItsClosedFormAtEveryFretAndForEveryPairOfRests)
{
  const double k = 0.065; // about 1 mm over a free shaft of 350 mm
  const SampledLine line = parabola(k);
  for (int a = 0; a < 20; ++a)
    for (int b = a + 1; b <= 20; ++b)
      for (int m = a; m <= b; ++m)
        ASSERT_NEAR(bow_at_fret(line, m, a, b).bow,
                    bow_of_parabola(k, line.x[m], line.x[a], line.x[b]), rounding)
            << a << ' ' << m << ' ' << b;
  report("Signed bow of a parabola", "bow at fret 7 over frets 1 to 14, m", "closed form [C]",
         bow_of_parabola(k, line.x[7], line.x[1], line.x[14]), bow_at_fret(line, 7, 1, 14).bow,
         rounding);
}

TEST(BowReading, NamesItsRestFretsAndTheJoinAndTheLastFretDiffer)
{
  const SampledLine line = parabola(0.065);
  const BowReading to_join = bow_at_fret(line, 7, 1, 14), to_last = bow_at_fret(line, 7, 1, 20);
  EXPECT_EQ(to_join.rest_a, 1);
  EXPECT_EQ(to_join.rest_b, 14);
  EXPECT_EQ(to_join.fret, 7);
  EXPECT_GT(to_last.bow / to_join.bow, 1.2);
}

TEST(BowReading, ForwardIsPositiveAndBackIsItsExactNegative)
{
  const SampledLine forward = parabola(0.05), back = upside_down(forward);
  for (int fret = 0; fret <= 20; ++fret) {
    const double bow = bow_at_fret(forward, fret, 1, 14).bow;
    EXPECT_EQ(bow_at_fret(back, fret, 1, 14).bow, -bow);
    if (fret > 1 && fret < 14) {
      EXPECT_GT(bow, 0);
    }
  }
}

TEST(BowReading, IsLinearInTheHeights)
{
  const SampledLine one = irregular(1), two = irregular(2);
  SampledLine sum = one;
  for (std::size_t i = 0; i < sum.z.size(); ++i)
    sum.z[i] = 3 * one.z[i] - 0.5 * two.z[i];
  EXPECT_NEAR(bow_at_fret(sum, 6, 1, 14).bow,
              3 * bow_at_fret(one, 6, 1, 14).bow - 0.5 * bow_at_fret(two, 6, 1, 14).bow, rounding);
}

TEST(BowReading, StraightLineReadsNothingHoweverItIsTilted)
{
  const SampledLine line = line_of([](double x) { return 0.01 + 0.02 * x; });
  for (int fret = 0; fret <= 20; ++fret)
    EXPECT_NEAR(bow_at_fret(line, fret, 1, 14).bow, 0, rounding);
}

TEST(BowReading, RiseOfTheTongueIsSeenOverTheExtendedChord)
{
  const SampledLine kept = line_of([](double x) { return 0.001 * x; });
  SampledLine ramp = kept;
  for (int fret = 15; fret <= 20; ++fret)
    ramp.z[fret] += 0.02 * (ramp.x[fret] - ramp.x[14]);
  EXPECT_NEAR(rise_at_fret(kept, 20, 1, 12), 0, rounding);
  EXPECT_NEAR(rise_at_fret(ramp, 20, 1, 12), 0.02 * (ramp.x[20] - ramp.x[14]), rounding);
  EXPECT_LT(rise_at_fret(upside_down(ramp), 20, 1, 12), 0);
}

// Source: the vertex of the parabola lies in the middle of the chord, bow k/2 ((b - a)/2)^2 [C].
TEST(DeepestReading, RefinedVertexOfAParabolaIsExact)
{
  for (const double k : {0.065, -0.02}) {
    const SampledLine line = parabola(k);
    const DeepestReading reading = deepest(line, 1, 14);
    const double middle = (line.x[1] + line.x[14]) / 2, half = (line.x[14] - line.x[1]) / 2;
    EXPECT_EQ(reading.fret, 6);
    EXPECT_EQ(reading.bow, bow_at_fret(line, 6, 1, 14).bow);
    EXPECT_NEAR(reading.refined_x, middle, 1e-14);
    EXPECT_NEAR(reading.refined_bow, k / 2 * half * half, rounding);
    EXPECT_GE(std::abs(reading.refined_bow), std::abs(reading.bow));
    report("Deepest point of a parabola", "refined bow over frets 1 to 14, m", "closed form [C]",
           k / 2 * half * half, reading.refined_bow, rounding);
  }
}

TEST(DeepestReading, SShapeShowsItsForwardAndItsBackPart)
{
  // One full wave over frets 1..14: forward near the nut, back near the body, larger there.
  const double a = line_of([](double) { return 0.; }).x[1];
  const double b = line_of([](double) { return 0.; }).x[14];
  const SampledLine line = line_of([a, b](double x) {
    const double s = 2 * std::acos(-1.) * (x - a) / (b - a);
    return -0.3e-3 * std::sin(s) * (x < (a + b) / 2 ? 1 : 1.5);
  });
  const DeepestReading forward = deepest(line, 1, 14, Direction::forward);
  const DeepestReading back = deepest(line, 1, 14, Direction::back);
  EXPECT_NEAR(forward.refined_bow, 0.3e-3, 0.006e-3);
  EXPECT_NEAR(back.refined_bow, -0.45e-3, 0.02e-3);
  EXPECT_LT(forward.fret, back.fret);
  EXPECT_EQ(deepest(line, 1, 14).fret, back.fret);
  EXPECT_EQ(deepest(upside_down(line), 1, 14).fret, back.fret);
}

TEST(DeepestReading, AskedForADirectionThatTheLineDoesNotHaveItIsZero)
{
  const DeepestReading reading = deepest(parabola(0.05), 1, 14, Direction::back);
  EXPECT_EQ(reading.bow, 0);
  EXPECT_EQ(reading.refined_bow, 0);
  EXPECT_EQ(reading.fret, 1);
}

TEST(OnFrets, AUnevenFretIsSeenOnTheFretsAndNotOnTheWood)
{
  const SampledLine wood = parabola(0.03);
  std::vector<double> height(wood.z.size(), 1.1e-3);
  height[7] += 0.1e-3;
  const SampledLine tops = on_frets(wood, height);
  EXPECT_NEAR(bow_at_fret(tops, 7, 1, 14).bow, bow_at_fret(wood, 7, 1, 14).bow - 0.1e-3, rounding);
  EXPECT_NEAR(bow_at_fret(tops, 6, 1, 14).bow, bow_at_fret(wood, 6, 1, 14).bow, rounding);
  EXPECT_THROW(on_frets(wood, {1e-3}), std::invalid_argument);
}

TEST(ReadingErrors, FretsRestsAndNumbersThatCannotBeAreRefused)
{
  SampledLine line = parabola(0.03);
  EXPECT_THROW(bow_at_fret(line, 21, 1, 14), std::invalid_argument);
  EXPECT_THROW(bow_at_fret(line, -1, 1, 14), std::invalid_argument);
  EXPECT_THROW(bow_at_fret(line, 7, 14, 1), std::invalid_argument);
  EXPECT_THROW(bow_at_fret(line, 7, 5, 5), std::invalid_argument);
  line.z[3] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(bow_at_fret(line, 7, 1, 14), std::invalid_argument);
  line.z[3] = 0;
  line.x[3] = line.x[4];
  EXPECT_THROW(deepest(line, 1, 14), std::invalid_argument);
}
