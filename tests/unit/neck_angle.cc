// SPDX-License-Identifier: GPL-3.0-or-later
// Neck angle or bow, by an edge carried on to the bridge.
#include "solver/readings/neck_angle.h"

#include "cases/read/read_case.h"
#include "solver/readings/bench_readings.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace overbend;
using namespace overbend::solver;

namespace
{
cases::Case steel_string(double bow, std::optional<double> over_bridge)
{
  cases::Case c = cases::preset_case("steel-string acoustic");
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = bow;
  c.readings.over_bridge = over_bridge;
  return c;
}

const materials::WorkLimits &limits()
{
  return materials::tables().limits;
}

double x(const cases::Case &c, int fret)
{
  return cases::fret_position(c.neck.scale_length, fret);
}
} // namespace

// A straight line with a tilt: carried on it is the same line.
TEST(EdgeCarriedTo, ContinuesAStraightLine)
{
  SampledLine line;
  for (int i = 0; i <= 10; ++i) {
    line.x.push_back(0.04 * i);
    line.z.push_back(0.001 - 0.002 * line.x.back());
  }
  EXPECT_NEAR(edge_carried_to(line, 1, 0.64), 0.001 - 0.002 * 0.64, 1e-15);
  EXPECT_THROW(edge_carried_to(line, 1, 0.4), std::invalid_argument);
  EXPECT_THROW(edge_carried_to(line, 10, 0.64), std::invalid_argument);
}

// Its middle is beyond the last point: held down on the last two high points.
TEST(EdgeCarriedTo, LiesOnTheLastHighPointsWhereItWouldTip)
{
  const SampledLine line{{0, 0.1, 0.2}, {0, 0, -1e-3}};
  EXPECT_NEAR(edge_carried_to(line, 0, 0.5), -4e-3, 1e-15);
}

// Closed form of the header: an arc k (x_j - x)^2 / 2 that ends at the join, read over fret 1 and
// the join, and an edge on fret 1 and on the last fret.
TEST(NeckAngle, AForwardBowLowersTheReadingByTheClosedForm)
{
  const cases::Case c = steel_string(1e-3, 0.);
  const double a = x(c, 1), m = x(c, c.found.bow_fret), j = x(c, 14), e = x(c, c.neck.frets),
               L = c.neck.scale_length;
  const double k = 2 * 1e-3 / ((m - a) * (j - m));
  const double expected = -k * (j - a) * (j - a) / 2 * (L - e) / (e - a);
  EXPECT_NEAR(over_bridge_by_bow(c, 1e-3), expected, 1e-12);
  EXPECT_NEAR(expected / 1e-3, -2, 0.1); // about twice the bow
}

// Over a back-bow the edge lies on the two frets around its middle and reads the angle almost
// alone.
TEST(NeckAngle, ABackBowMovesItLittle)
{
  const cases::Case c = steel_string(-1e-3, 0.);
  const double a = x(c, 1), m = x(c, c.found.bow_fret), j = x(c, 14), L = c.neck.scale_length;
  // Equal temperament: half way from fret 1 to the bridge is fret 13, and the edge lies on the
  // bridge's side of it.
  ASSERT_NEAR((a + L) / 2, x(c, 13), 1e-12);
  const double k = -2 * 1e-3 / ((m - a) * (j - m));
  const double drop = k * (j - x(c, 13)) * (j - x(c, 13)) / 2;
  EXPECT_NEAR(over_bridge_by_bow(c, -1e-3), -drop * (L - j) / (j - x(c, 13)), 1e-12);
  EXPECT_LT(over_bridge_by_bow(c, -1e-3), 0.25e-3);
}

TEST(NeckAngle, StraightIsTheReadingLessWhatTheBowDoes)
{
  // 1 mm forward bow and 0.5 mm below the top: straight it clears by about 1.5 mm, which is right.
  const auto angle = neck_angle(steel_string(1e-3, -0.5e-3), limits());
  ASSERT_TRUE(angle);
  EXPECT_TRUE(angle->read_is_out);
  EXPECT_NEAR(angle->straight, -0.5e-3 - over_bridge_by_bow(steel_string(1e-3, 0.), 1e-3), 1e-15);
  EXPECT_EQ(angle->out, 0);
  EXPECT_FALSE(angle->wrong);
}

TEST(NeckAngle, IsWrongBeyondTheErrorOfTheReadingAndInDoubtWithinIt)
{
  const auto low = neck_angle(steel_string(0, -2e-3), limits());
  EXPECT_TRUE(low->wrong);
  EXPECT_NEAR(low->out, -2e-3, 1e-12);
  const auto high = neck_angle(steel_string(0, 3.3e-3), limits());
  EXPECT_FALSE(high->wrong);
  EXPECT_TRUE(high->in_doubt);
  EXPECT_FALSE(neck_angle(steel_string(0, {}), limits()));
}

// A worn last fret lets the edge lie lower at the bridge: what frets do is no angle.
TEST(NeckAngle, FretsArePartOfTheLine)
{
  cases::Case c = steel_string(0, 1e-3);
  for (int fret = 14; fret <= c.neck.frets; ++fret)
    c.readings.fret_heights[fret] = {0.1e-3, 0.1e-3};
  const double L = c.neck.scale_length, a = x(c, 1), j = x(c, 14);
  // The edge lies on fret 1 and fret 14, 0.1 mm up.
  EXPECT_NEAR(over_bridge_by_bow(c, 0), 0.1e-3 * (L - a) / (j - a), 1e-12);
}
