// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/unit/readings_lines.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

using namespace overbend::solver;
using namespace overbend::tests;

namespace
{
constexpr double rounding = 1e-17;

double length_over(const SampledLine &line, int a, int b)
{
  return line.x[b] - line.x[a];
}

// The pair of frets on which an edge can lie, found the slow way: of all pairs on both sides of
// the middle, the one under whose line no fret rises; there is one or, at a tie, more.
bool is_resting_pair(const SampledLine &line, int a, int b, int first, int last)
{
  for (int fret = first; fret <= last; ++fret)
    if (bow_at_fret(line, fret, a, b).bow < -rounding)
      return false;
  return true;
}
} // namespace

TEST(Straightedge, OverAForwardBowRestsOnItsEndsAndShowsTheSignedBow)
{
  const SampledLine line = parabola(0.065);
  const EdgeReading edge = straightedge(line, 1, length_over(line, 1, 14));
  EXPECT_EQ(edge.rest_a, 1);
  EXPECT_EQ(edge.rest_b, 14);
  EXPECT_EQ(edge.first_fret, 1);
  EXPECT_EQ(edge.last_fret, 14);
  EXPECT_EQ(edge.hump, 0);
  for (int fret = 1; fret <= 14; ++fret)
    EXPECT_EQ(edge.at(fret), bow_at_fret(line, fret, 1, 14).bow);
  EXPECT_EQ(edge.deepest_fret, deepest(line, 1, 14).fret);
  EXPECT_EQ(edge.deepest_gap, deepest(line, 1, 14).bow);
}

TEST(Straightedge, RestsWhereAPairSearchOverAllFretsSays)
{
  for (unsigned seed = 1; seed <= 200; ++seed) {
    const SampledLine line = irregular(seed);
    const int start = static_cast<int>(seed % 4);
    const double length = 0.28 + 0.0003 * (seed % 100);
    const EdgeReading edge = straightedge(line, start, length);
    const double middle = line.x[start] + length / 2;
    std::vector<std::pair<int, int>> found;
    for (int a = start; a < edge.last_fret; ++a)
      for (int b = a + 1; b <= edge.last_fret; ++b)
        if (line.x[a] <= middle && line.x[b] >= middle &&
            is_resting_pair(line, a, b, start, edge.last_fret))
          found.emplace_back(a, b);
    ASSERT_EQ(found.size(), 1u) << seed;
    EXPECT_EQ(found.front(), std::make_pair(edge.rest_a, edge.rest_b)) << seed;
    EXPECT_EQ(edge.at(edge.rest_a), 0);
    EXPECT_EQ(edge.at(edge.rest_b), 0);
    EXPECT_GE(*std::min_element(edge.gap.begin(), edge.gap.end()), 0) << seed;
  }
}

TEST(Straightedge, ReachesOnlyTheFretsUnderIt)
{
  const SampledLine line = parabola(0.065);
  const EdgeReading edge = straightedge(line, 1, 0.250);
  EXPECT_LE(line.x[edge.last_fret] - line.x[1], 0.250);
  EXPECT_GT(line.x[edge.last_fret + 1] - line.x[1], 0.250);
  EXPECT_EQ(edge.gap.size(), static_cast<std::size_t>(edge.last_fret));
  EXPECT_THROW(edge.at(edge.last_fret + 1), std::out_of_range);
  // Longer than the board, but its middle over it: it lies.
  EXPECT_EQ(straightedge(line, 0, 0.6).last_fret, 20);
  // Middle beyond the last fret: it tips off.
  EXPECT_THROW(straightedge(line, 10, 0.6), std::invalid_argument);
  EXPECT_THROW(straightedge(line, 20, 0.1), std::invalid_argument);
  EXPECT_THROW(straightedge(line, 1, 0), std::invalid_argument);
}

TEST(Straightedge, OnAStraightLineShowsNoGap)
{
  const SampledLine line = line_of([](double x) { return 0.003 * x; });
  const EdgeReading edge = straightedge(line, 1, 0.4);
  EXPECT_LT(edge.deepest_gap, rounding);
  EXPECT_LT(edge.hump, rounding);
}

TEST(Straightedge, OnABackBowCannotShowItAndSaysThatItRocks)
{
  const SampledLine line = upside_down(parabola(0.03));
  const EdgeReading edge = straightedge(line, 1, length_over(line, 1, 14));
  EXPECT_EQ(edge.rest_b, edge.rest_a + 1);
  EXPECT_NEAR(edge.hump, -deepest(line, 1, 14).bow, rounding);
  EXPECT_GT(edge.hump, 0);
}

// Source: the edge is parallel to the chord, both end gaps equal the height of the hump [C].
TEST(RockingGaps, EndGapsAreEqualAndThoseOfTheParabola)
{
  const SampledLine line = upside_down(parabola(0.03));
  const RockingReading rocking = rocking_gaps(line, 1, 14);
  const double expected = bow_of_parabola(0.03, line.x[6], line.x[1], line.x[14]);
  EXPECT_EQ(rocking.hump_fret, 6);
  EXPECT_NEAR(rocking.end_gap, expected, rounding);
  EXPECT_EQ(rocking.gap.front(), rocking.end_gap);
  EXPECT_EQ(rocking.gap.back(), rocking.end_gap);
  EXPECT_EQ(rocking.gap[6 - 1], 0);
  EXPECT_GE(*std::min_element(rocking.gap.begin(), rocking.gap.end()), 0);
  report("Rocking gaps of a back-bow", "end gap over frets 1 to 14, m", "closed form [C]", expected,
         rocking.end_gap, rounding);
}

TEST(RockingGaps, AForwardBowHasNoHumpToRockOn)
{
  const RockingReading rocking = rocking_gaps(parabola(0.03), 1, 14);
  EXPECT_EQ(rocking.end_gap, 0);
  EXPECT_EQ(rocking.gap.front(), 0);
}

TEST(RockingGaps, OnFretsAndOnWoodDifferByTheHighFret)
{
  const SampledLine wood = upside_down(parabola(0.01));
  std::vector<double> height(wood.z.size(), 1e-3);
  height[9] += 0.2e-3;
  const RockingReading on_tops = rocking_gaps(on_frets(wood, height), 1, 14);
  EXPECT_EQ(rocking_gaps(wood, 1, 14).hump_fret, 6);
  EXPECT_EQ(on_tops.hump_fret, 9);
  EXPECT_NEAR(on_tops.end_gap, 0.2e-3 - bow_at_fret(wood, 9, 1, 14).bow, rounding);
}

TEST(StringHeldDown, OverAForwardBowShowsTheReliefOverItsTwoFrets)
{
  const SampledLine line = parabola(0.02);
  const EdgeReading relief = string_held_down(line, 1, 14);
  EXPECT_EQ(relief.hump, 0);
  for (int fret = 1; fret <= 14; ++fret)
    EXPECT_EQ(relief.at(fret), bow_at_fret(line, fret, 1, 14).bow);
}

TEST(StringHeldDown, LiesOnAHumpAndShowsNoReliefThere)
{
  const SampledLine line = upside_down(parabola(0.02));
  const EdgeReading relief = string_held_down(line, 1, 14);
  EXPECT_LT(relief.deepest_gap, rounding);
  EXPECT_NEAR(relief.hump, -deepest(line, 1, 14).bow, rounding);
}

// The hull is the lowest concave line over all points: at each fret the largest height of any
// chord between frets on both sides of it.
TEST(StringHeldDown, IsTheUpperConvexHullFoundByTryingAllChords)
{
  for (unsigned seed = 1; seed <= 100; ++seed) {
    const SampledLine line = irregular(seed);
    const EdgeReading relief = string_held_down(line, 1, 18);
    for (int fret = 1; fret <= 18; ++fret) {
      double highest = 0;
      for (int a = 1; a <= fret; ++a)
        for (int b = std::max(fret, a + 1); b <= 18; ++b)
          highest = std::max(highest, bow_at_fret(line, fret, a, b).bow);
      ASSERT_NEAR(relief.at(fret), highest, rounding) << seed << " fret " << fret;
    }
  }
}

TEST(StringHeldDown, OverAKinkIsDeepestAtTheKink)
{
  const double at = parabola(0).x[9];
  const SampledLine line = line_of([at](double x) { return 0.01 * std::abs(x - at); });
  EXPECT_EQ(string_held_down(line, 1, 14).deepest_fret, 9);
  EXPECT_EQ(straightedge(line, 1, length_over(line, 1, 14)).deepest_fret, 9);
}
