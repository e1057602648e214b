// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/unit/readings_lines.h"

#include <gtest/gtest.h>

#include <stdexcept>

using namespace overbend::solver;
using namespace overbend::tests;

namespace
{
constexpr double degree = 3.14159265358979323846 / 180;

// A stick on a board tilted by an angle, the treble end raised for a positive one.
StickStation tilted(int fret, double angle, double across)
{
  return {fret, 0.002 - across / 2 * std::sin(angle), 0.002 + across / 2 * std::sin(angle),
          across * std::cos(angle)};
}
} // namespace

TEST(WindingSticks, TrebleCornerOfTheNutRaisedIsPositive)
{
  const TwistReading twist =
      winding_sticks({1, 0.001, 0.0015, 0.04}, {14, 0.001, 0.001, 0.05}, 0.043);
  EXPECT_GT(twist.angle, 0);
  EXPECT_GT(twist.over_sticks, 0);
  EXPECT_GT(twist.across_nut, 0);
  EXPECT_EQ(twist.nut_side_fret, 1);
  EXPECT_EQ(twist.body_side_fret, 14);
}

// Source: 300 mm sticks show 5.2 mm per degree, 0.1 degree is 0.5 mm (common practice, no source
// [E]).
TEST(WindingSticks, ThreeHundredMillimetresShowFivePointTwoMillimetresADegree)
{
  const TwistReading twist = winding_sticks(tilted(1, degree, 0.04), tilted(14, 0, 0.05), 0.043);
  EXPECT_NEAR(twist.angle, degree, 1e-15);
  EXPECT_NEAR(twist.over_sticks, 5.2e-3, 0.05e-3);
  EXPECT_NEAR(twist.across_nut, 0.043 * std::sin(degree), 1e-15);
  EXPECT_EQ(twist.stick_length, 0.3);
  report("Winding sticks, 1 degree", "difference over 300 mm sticks, m",
         "common practice, no source [E], rounded to 0.1 mm", 5.2e-3, twist.over_sticks, 0.05e-3);
}

TEST(WindingSticks, ReadTheDifferenceOfTheTwoStationsNotTheirCommonTilt)
{
  const TwistReading twist =
      winding_sticks(tilted(1, 1.5 * degree, 0.04), tilted(14, 0.7 * degree, 0.05), 0.043);
  EXPECT_NEAR(twist.angle, 0.8 * degree, 1e-15);
}

TEST(WindingSticks, SwappingBassAndTrebleMirrorsTheReadingExactly)
{
  const StickStation nut{1, 0.00213, 0.00191, 0.0411}, body{14, 0.0017, 0.00183, 0.0523};
  const StickStation nut_mirrored{1, nut.treble_height, nut.bass_height, nut.distance};
  const StickStation body_mirrored{14, body.treble_height, body.bass_height, body.distance};
  const TwistReading one = winding_sticks(nut, body, 0.043);
  const TwistReading other = winding_sticks(nut_mirrored, body_mirrored, 0.043);
  EXPECT_EQ(one.angle, -other.angle);
  EXPECT_EQ(one.over_sticks, -other.over_sticks);
  EXPECT_EQ(one.across_nut, -other.across_nut);
  EXPECT_LT(one.angle, 0);
}

TEST(WindingSticks, StationsWithoutWidthAreRefused)
{
  EXPECT_THROW(winding_sticks({1, 0, 0, 0}, {14, 0, 0, 0.05}, 0.043), std::invalid_argument);
}

// Source: constant curvature leaves nothing that the halves do not explain [C].
TEST(Kink, ASmoothBowHasNone)
{
  for (const double k : {0.065, -0.03}) {
    const KinkReading reading = kink(parabola(k), 1, 7, 14);
    EXPECT_NEAR(reading.kink, 0, 1e-16);
    EXPECT_NEAR(reading.angle, 0, 1e-14);
  }
}

TEST(Kink, TwoSmoothHalvesOfDifferentCurvatureHaveNone)
{
  const double at = parabola(0).x[7];
  const SampledLine line =
      line_of([at](double x) { return (x < at ? 0.01 : 0.09) / 2 * (x - at) * (x - at); });
  EXPECT_GT(kink(line, 1, 7, 14).whole.bow, 0.1e-3);
  EXPECT_NEAR(kink(line, 1, 7, 14).kink, 0, 1e-16);
}

// Source: two straight halves meeting at an angle; bow = angle (m - a)(b - m)/(b - a) [C].
TEST(Kink, TwoStraightHalvesAreAllKink)
{
  const double angle = 0.01;
  const double at = parabola(0).x[9];
  const SampledLine line =
      line_of([=](double x) { return 0.002 + 0.003 * x + (x > at ? angle * (x - at) : 0); });
  const KinkReading valley = kink(line, 1, 9, 16);
  EXPECT_NEAR(valley.kink, valley.whole.bow, 1e-16);
  EXPECT_NEAR(valley.angle, angle, 1e-14);
  EXPECT_EQ(valley.middle_fret, 9);
  const KinkReading hump = kink(upside_down(line), 1, 9, 16);
  EXPECT_EQ(hump.kink, -valley.kink);
  report("Kink of two straight halves", "angle at fret 9, rad", "closed form [C]", angle,
         valley.angle, 1e-14);
}

TEST(Kink, AJointHumpOnABowedNeckIsSeparatedFromTheBow)
{
  const double at = parabola(0).x[14], angle = -0.004;
  SampledLine line = parabola(0.03);
  for (std::size_t i = 0; i < line.x.size(); ++i)
    line.z[i] += line.x[i] > at ? angle * (line.x[i] - at) : 0;
  EXPECT_NEAR(kink(line, 1, 14, 20).angle, angle, 1e-13);
}

TEST(Kink, HalvesWithoutAFretInsideAreRefused)
{
  EXPECT_THROW(kink(parabola(0.03), 1, 2, 14), std::invalid_argument);
  EXPECT_THROW(kink(parabola(0.03), 1, 13, 14), std::invalid_argument);
}
