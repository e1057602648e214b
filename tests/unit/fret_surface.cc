// SPDX-License-Identifier: GPL-3.0-or-later
// What worn and high frets do to the readings: the hull of the heights, worked out by hand.
#include "solver/readings/fret_surface.h"

#include "cases/read/read_case.h"
#include "mesh/neck_profile.h"
#include "solver/readings/stage_readings.h"
#include "solver/report/run_readings.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace overbend;
using namespace overbend::solver;

namespace
{
// Fourteen frets between the rests, read at fret 6; a board without any bow.
cases::Case straight_case()
{
  cases::Case c = cases::preset_case("steel-string acoustic");
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0;
  c.found.twist = 0;
  return c;
}

BoardShape straight_shape(const cases::Case &c)
{
  BoardShape shape;
  for (SampledLine *line : {&shape.bass, &shape.centre, &shape.treble})
    for (int fret = 0; fret <= c.neck.frets; ++fret) {
      line->x.push_back(cases::fret_position(c.neck.scale_length, fret));
      line->z.push_back(0);
    }
  return shape;
}

double x(const cases::Case &c, int fret)
{
  return cases::fret_position(c.neck.scale_length, fret);
}

// Height of a straight line from (a, 1) to (b, 0) at fret f.
double share(const cases::Case &c, int a, int b, int f)
{
  return (x(c, b) - x(c, f)) / (x(c, b) - x(c, a));
}
} // namespace

// A worn fret under level ones: the edge lies on all others and shows its wear as the gap.
TEST(FretSurface, AWornFretIsTheGapUnderAnEdgeOnAStraightNeck)
{
  cases::Case c = straight_case();
  c.readings.fret_heights[5] = {-0.1e-3, -0.1e-3};
  const StageReadings r = stage_readings(c, straight_shape(c), {}, {});
  for (const LineReadings &line : r.line) {
    EXPECT_FALSE(line.edge.rocks);
    EXPECT_EQ(line.edge.deepest_gap_fret, 5);
    EXPECT_NEAR(line.edge.deepest_gap, 0.1e-3, 1e-15);
    EXPECT_EQ(line.deepest_fret, 5);
    EXPECT_NEAR(line.bow_by_fret.at(4), 0.1e-3, 1e-15);
    EXPECT_NEAR(line.relief, 0.1e-3, 1e-15);
    EXPECT_EQ(line.relief_fret, 5);
  }
}

// A high fret is a hump. The middle of the edge lies before it, so that it rests on fret 1 and on
// the high one and stands off at fret 14: by the height there of the line through both. Held level
// it would stand off by the height of the fret at each end.
TEST(FretSurface, AnEdgeRestsOnAHighFret)
{
  cases::Case c = straight_case();
  c.readings.fret_heights[7] = {0.2e-3, 0.2e-3};
  const StageReadings r = stage_readings(c, straight_shape(c), {}, {});
  const EdgeOnLine &edge = r.line[1].edge;
  EXPECT_EQ(edge.rest_a, 1);
  EXPECT_EQ(edge.rest_b, 7);
  EXPECT_EQ(edge.deepest_gap_fret, 14);
  EXPECT_NEAR(edge.deepest_gap, 0.2e-3 * (x(c, 14) - x(c, 1)) / (x(c, 7) - x(c, 1)), 1e-15);
  EXPECT_NEAR(edge.gap.at(6), 0, 1e-15);
  EXPECT_EQ(r.line[1].deepest_fret, 7);
  EXPECT_NEAR(r.line[1].deepest_bow, -0.2e-3, 1e-15);
  EXPECT_NEAR(rocking_gaps(bench_line(c, straight_shape(c), {}, 1), 1, 14).end_gap, 0.2e-3, 1e-15);
  // The string held down at both rests lies on it: two straight parts, and fret 4 half way up the
  // first has a gap of what the string is over the level frets there.
  EXPECT_NEAR(r.line[1].relief, 0.2e-3 * (1 - share(c, 1, 7, 6)), 1e-12);
  EXPECT_EQ(r.line[1].relief_fret, 6);
}

// A worn rest fret lets down that end of the chord: fret f reads the wear times its share of the
// way, back-bow.
TEST(FretSurface, AWornRestFretReadsAsBackBow)
{
  cases::Case c = straight_case();
  c.readings.fret_heights[1] = {-0.1e-3, -0.1e-3};
  const Reading r = of_surface(c);
  const int m = c.found.bow_fret, b = c.found.rest_fret_b;
  EXPECT_NEAR(r.bow, -0.1e-3 * share(c, 1, b, m), 1e-12);
  EXPECT_EQ(r.twist, 0);
  const StageReadings stage = stage_readings(c, straight_shape(c), {}, {});
  EXPECT_NEAR(stage.line[1].bow, r.bow, 1e-15);
  EXPECT_NEAR(stage.line[0].bow, r.bow_bass, 1e-15);
}

// Worn at the treble only: the sticks tilt by height over the distance across, and the centre line
// sees half of it.
TEST(FretSurface, SticksLieOnFretsWornOnOneSide)
{
  cases::Case c = straight_case();
  c.readings.fret_heights[1] = {0, -0.1e-3};
  const mesh::NeckProfile profile(c.neck);
  const double across = 2 * mesh::reading_line_share * profile.half_width(x(c, 1));
  EXPECT_NEAR(of_surface(c).twist, -0.1e-3 / across, 1e-15);
  const StageReadings r = stage_readings(c, straight_shape(c), {}, {});
  EXPECT_NEAR(r.twist, -0.1e-3 / across, 1e-15);
  EXPECT_NEAR(r.over_sticks, 0.3 * std::sin(-0.1e-3 / across), 1e-12);
  EXPECT_NEAR(r.line[0].bow, 0, 1e-15);
  EXPECT_NEAR(r.line[1].bow, r.line[2].bow / 2, 1e-15);
  const std::vector<double> wide(std::size_t(c.neck.frets) + 1, 0.04);
  EXPECT_NEAR(twist_at_fret(c, straight_shape(c), {}, wide, 1), -0.1e-3 / across, 1e-15);
  EXPECT_EQ(twist_at_fret(c, straight_shape(c), {}, wide, 5), 0);
}

TEST(FretSurface, ReadingsOnTheWoodDoNotSeeTheFrets)
{
  cases::Case c = straight_case();
  c.readings.fret_heights[5] = {-0.1e-3, -0.1e-3};
  c.readings.fret_heights[1] = {0, -0.1e-3};
  c.readings.edge_on = cases::EdgeOn::wood;
  EXPECT_EQ(of_surface(c).bow, 0);
  EXPECT_EQ(of_surface(c).twist, 0);
  EXPECT_FALSE(frets_matter(c));
  const StageReadings r = stage_readings(c, straight_shape(c), {}, {});
  EXPECT_EQ(r.line[2].edge.deepest_gap, 0);
  EXPECT_EQ(r.twist, 0);
}

// What was read on frets is turned into the wood's by the same constants, and back.
TEST(FretSurface, FoundOnFretsLessTheFretsIsTheWood)
{
  cases::Case c = straight_case();
  c.found.bow_bass = 0.5e-3;
  c.found.bow_centre = 0.6e-3;
  c.found.bow_treble = 0.7e-3;
  c.found.twist = 0.004;
  c.readings.fret_heights[c.found.bow_fret] = {-0.1e-3, -0.2e-3};
  c.readings.fret_heights[1] = {0, -0.1e-3};
  const Reading wood = found_wood(c);
  EXPECT_NEAR(wood.bow_bass, 0.4e-3, 1e-12);
  const Reading again = at_bench(c, wood, {});
  EXPECT_NEAR(again.bow, 0.6e-3, 1e-15);
  EXPECT_NEAR(again.bow_treble, 0.7e-3, 1e-15);
  EXPECT_NEAR(again.twist, 0.004, 1e-15);
  EXPECT_TRUE(frets_matter(c));
}

// Swapping the sides of the heights swaps the lines and turns the twist round.
TEST(FretSurface, MirroredHeightsGiveMirroredReadings)
{
  cases::Case c = straight_case(), mirrored = c;
  c.readings.fret_heights = {{1, {0.02e-3, -0.1e-3}}, {6, {-0.05e-3, 0.03e-3}}};
  mirrored.readings.fret_heights = {{1, {-0.1e-3, 0.02e-3}}, {6, {0.03e-3, -0.05e-3}}};
  const Reading one = of_surface(c), other = of_surface(mirrored);
  EXPECT_DOUBLE_EQ(one.bow_bass, other.bow_treble);
  EXPECT_DOUBLE_EQ(one.bow_treble, other.bow_bass);
  EXPECT_DOUBLE_EQ(one.bow, other.bow);
  EXPECT_DOUBLE_EQ(one.twist, -other.twist);
}
