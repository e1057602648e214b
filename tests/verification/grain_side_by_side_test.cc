// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/grain_strip.h"

#include <gtest/gtest.h>

#include <cmath>

// Two strips glued side by side, bass and treble, with the line between them rigid and on a line of
// the mesh: what the solver makes of grain and swelling that differ across the width.
namespace overbend::tests
{
namespace
{
constexpr double pi = 3.14159265358979323846, degree = pi / 180;
constexpr double length = 0.2, width = 0.03, thickness = 0.01;

bool on_treble_side(const Beam &beam, unsigned cell)
{
  constexpr unsigned middle = 13;
  return beam.model.space.position[beam.model.space.cell_node[cell][middle]][1] > 0;
}

// Twist over the length under a bow of 5 MPa at the surface and 20 K of warming.
double twist(double bass, double treble)
{
  Beam beam = strip(length, width, thickness, 8, 4);
  set_grain(beam, [&](mesh::Piece, double) { return run_out_across(bass); });
  Beam other = strip(length, width, thickness, 8, 4);
  set_grain(other, [&](mesh::Piece, double) { return run_out_across(treble); });
  for (unsigned c = 0; c < beam.model.space.n_cells; ++c)
    if (on_treble_side(beam, c))
      beam.model.cell_grain[c] = other.model.cell_grain[c];
  const auto load = end_load(beam, [](double, double z) { return 1e9 * z; });
  const auto u = free_displacement(beam, 20, load);
  return turn(beam, u, length) - turn(beam, u, 0);
}
} // namespace

// Source: Timoshenko 1925, two equal strips of one stiffness: curvature 3/2 of the difference of
// the free strains over the whole width. The bow is sideways, towards the strip that shrinks more.
// The formula leaves out what the section does across, as in the same test of layers: 3 %.
TEST(StripsSideBySide, ThatSwellDifferentlyBendSideways)
{
  Beam beam = strip(length, width, thickness, 8, 4);
  set_grain(beam, [](mesh::Piece, double) { return run_out_across(0); });
  for (unsigned c = 0; c < beam.model.space.n_cells; ++c)
    beam.model.swelling_along.push_back(on_treble_side(beam, c) ? 1.5 : 0.5);
  const auto u = dried_displacement(beam, 0.12, 0.07);
  const auto aside = [&](double x) { return u[3 * beam.node(x, 0, -thickness / 2) + 1]; };
  const double bow = (aside(0) + aside(length)) / 2 - aside(length / 2);
  const double difference = 0.04 * 0.0023 + 0.01 * 0.0179;
  const double expected = 1.5 * difference / width * length * length / 8;
  EXPECT_NEAR(bow, expected, 0.03 * expected);
  report("Treble strip that shrinks more along the grain, 12 to 7 %", "bow sideways, m",
         "Timoshenko 1925", expected, bow, 0.03 * expected);
}

// Source: symmetry. Strips that are each other's mirror image do not twist; strips with the same
// run-out do, and swapping bass and treble in the mirror turns the sign.
TEST(StripsSideBySide, OfOppositeRunOutDoNotTwistAndMirroredOnesMirror)
{
  const double alike = twist(6 * degree, 6 * degree), opposite = twist(6 * degree, -6 * degree);
  EXPECT_GT(std::abs(alike), 1e-3);
  EXPECT_NEAR(opposite, 0, 1e-6 * std::abs(alike));
  report("Two strips, run-out +6 and -6 deg, bowed and warmed", "twist over 0.2 m, rad", "symmetry",
         0, opposite, 1e-6 * std::abs(alike));
  const double one = twist(8 * degree, 3 * degree), image = twist(-3 * degree, -8 * degree);
  EXPECT_NEAR(image, -one, 1e-6 * std::abs(one));
  report("Two strips and their mirror image", "twist over 0.2 m, rad", "symmetry", -one, image,
         1e-6 * std::abs(one));
}
} // namespace overbend::tests
