// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/glued_up.h"

#include <gtest/gtest.h>

#include <cmath>

// Grain of the strips of a glued-up beam: what mirror symmetry says of its twist.
namespace overbend::tests
{
namespace
{
constexpr double length = 0.2, width = 0.04, thickness = 0.012;
constexpr double built = 0.12, dried = 0.07;

std::vector<double> displacement(const std::vector<cases::Grain> &grain)
{
  Beam beam = strip(length, width, thickness, 8, 6);
  std::vector<GluedStrip> strips;
  for (const cases::Grain &one : grain)
    strips.push_back({width / double(grain.size()), swelling_maple(), one});
  glue_up(beam, strips, built);
  return dried_displacement(beam, built, dried);
}

double twist(const std::vector<cases::Grain> &grain)
{
  const Beam beam = strip(length, width, thickness, 8, 6);
  const auto u = displacement(grain);
  return turn(beam, u, length) - turn(beam, u, 0);
}

cases::Grain image(const cases::Grain &grain)
{
  return {-grain.ring_angle, -grain.run_out_across, grain.run_out_depth};
}
} // namespace

// Source: symmetry.
TEST(GluedUpBeam, OfTwoMirroredHalvesDoesNotTwistWhenItDries)
{
  const cases::Grain bass{0.4, 0.06, 0.08};
  const double mirrored = twist({bass, image(bass)});
  const double opposite = twist({bass, {bass.ring_angle, bass.run_out_across, -0.08}});
  EXPECT_GT(std::abs(opposite), 1e-4);
  EXPECT_NEAR(mirrored, 0, 1e-9 * std::abs(opposite));
  report("Two mirrored halves with run-out, dried from 12 to 7 %", "twist over 0.2 m, rad",
         "symmetry", 0, mirrored, 1e-9 * std::abs(opposite));
}

TEST(GluedUpBeam, MirroredMirrorsItsTwist)
{
  const std::vector<cases::Grain> strips = {
      {0.4, 0.06, 0.08}, {0, -0.03, 0}, {1.2, 0.02, -0.05}, {-0.7, 0, 0.04}, {0, 0.05, 0}};
  std::vector<cases::Grain> mirrored;
  for (auto strip = strips.rbegin(); strip != strips.rend(); ++strip)
    mirrored.push_back(image(*strip));
  const double one = twist(strips), other = twist(mirrored);
  EXPECT_GT(std::abs(one), 1e-4);
  EXPECT_NEAR(other, -one, 1e-9 * std::abs(one));
  report("Five strips and their mirror image, dried from 12 to 7 %", "twist over 0.2 m, rad",
         "symmetry", -one, other, 1e-9 * std::abs(one));
}

TEST(GluedUpBeam, OfEqualStripsIsOnePiece)
{
  const cases::Grain grain{0.4, 0.06, 0.08};
  Beam whole = strip(length, width, thickness, 8, 6);
  set_grain(whole, [&](mesh::Piece, double) { return grain; });
  const auto one = dried_displacement(whole, built, dried);
  const auto glued = displacement({grain, grain, grain});
  double largest = 0, off = 0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    largest = std::max(largest, std::abs(one[i]));
    off = std::max(off, std::abs(one[i] - glued[i]));
  }
  EXPECT_GT(largest, 0);
  EXPECT_LE(off, 1e-9 * largest);
  report("Three equal strips against one piece, dried", "largest difference, m", "one piece", 0,
         off, 1e-9 * largest);
}
} // namespace overbend::tests
