// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/wood_law.h"
#include "tests/report.h"
#include "tests/verification/grain_strip.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

// Two layers whose grain runs out to opposite sides twist when they dry and when they are pulled
// along: against lamination theory (grain_strip.h). The theory is for a wide thin plate; at free
// edges it is wrong over about one thickness, 2 of 80 mm here: 3 %.
namespace overbend::tests
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double layer = 1e-3, length = 0.16, width = 0.08;
constexpr double built = 0.12, dry = 0.07; // kg/kg

// Run-out of +angle in the upper layer and -angle in the lower one, quarter-sawn; same_sense: of
// +angle in both.
Beam opposite_layers(double angle, bool same_sense = false)
{
  Beam beam = two_layers(length, width, layer, 12, 12);
  set_grain(beam, [&](mesh::Piece piece, double) {
    return run_out_across(piece == mesh::Piece::board || same_sense ? angle : -angle);
  });
  return beam;
}

// Twist a length between the quarter points, away from the ends, rad/m.
double twist_rate(const Beam &beam, const std::vector<double> &displacement)
{
  const double x0 = length / 4, x1 = 3 * x0;
  return (turn(beam, displacement, x1) - turn(beam, displacement, x0)) / (x1 - x0);
}

PlyLoad drying()
{
  const auto strain = materials::swelling_strain(swelling_maple(), built, dry);
  return {strain[0], strain[1], 0};
}

void expect(const std::string &what, double expected, double got)
{
  constexpr double edges = 0.03;
  EXPECT_NEAR(got, expected, edges * std::abs(expected)) << what;
  report(what, "twist a length, rad/m", "lamination theory [M]", expected, got,
         edges * std::abs(expected));
}

std::vector<double> pulled(const Beam &beam, double stress)
{
  return free_displacement(beam, 0, end_load(beam, [&](double, double) { return stress; }));
}
} // namespace

// Source: Jones 1975, chapter 4 [M], with the free strains of Wood Handbook Eq. 4-9 across the
// grain and two straight lines along it, at moduli that do not change with moisture.
TEST(RunOut, TwoLayersOfOppositeRunOutTwistWhenTheyDry)
{
  for (const double angle : {6., -3.}) {
    Beam beam = opposite_layers(angle * degree);
    const auto u = dried_displacement(beam, built, dry);
    expect("Two layers of 1 mm, run-out " + std::to_string(int(angle)) +
               " deg and its mirror, dried from 12 to 7 %",
           angle_ply_twist(warm_maple(), angle * degree, layer, drying()), twist_rate(beam, u));
  }
}

// Source: Jones 1975, chapter 4 [M]: B_16 of the antisymmetric angle-ply laminate.
TEST(RunOut, TwoLayersOfOppositeRunOutTwistUnderPull)
{
  const double stress = 5e6;
  for (const double angle : {6., -15.}) {
    const Beam beam = opposite_layers(angle * degree);
    expect("Two layers of 1 mm, run-out " + std::to_string(int(angle)) +
               " deg and its mirror, pulled by 5 MPa",
           angle_ply_twist(warm_maple(), angle * degree, layer, {0, 0, 2 * layer * stress}),
           twist_rate(beam, pulled(beam, stress)));
  }
}

// With the grain to one side in both layers there is shear, but nothing to twist against.
TEST(RunOut, TwoLayersOfOneRunOutShearButDoNotTwist)
{
  Beam beam = opposite_layers(6 * degree, true);
  const auto under_pull = pulled(beam, 5e6);
  EXPECT_GT(std::abs(shear(beam, under_pull, 0, length)), 1e-5);
  EXPECT_NEAR(twist_rate(beam, under_pull), 0, 1e-7);
  const auto dried = dried_displacement(beam, built, dry);
  EXPECT_GT(std::abs(shear(beam, dried, 0, length)), 1e-4);
  EXPECT_NEAR(twist_rate(beam, dried), 0, 1e-7);
}
} // namespace overbend::tests
