// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Bending of straight beams and bilayers against closed forms.
namespace overbend::tests
{
namespace
{
// Sag under a force of 100 N in the middle of a span of 0.6 m, mm. 50 mm wide.
double three_point_sag(double board, double shaft)
{
  mesh::LayeredBeam shape;
  shape.length = 0.6;
  shape.board_thickness = board;
  shape.shaft_depth = shaft;
  shape.cells_along = 24;
  shape.glue_line = false;
  const Beam beam(shape, {elastic(12.65e9, 1e9, 1.4e9), elastic(13.86e9, 1e9, 1.4e9), {}});
  std::vector<double> load = beam.no_load();
  solver::add_times(beam.lift(shape.length / 2), -100, load);
  return 1e3 * beam.bow(beam.solve(load));
}

// Curvature w'' of a free bilayer whose layers strain by `board` and `shaft` when warmed, from
// three sections in its middle.
double bilayer_curvature(double t1, double E1, double board, double t2, double E2, double shaft)
{
  mesh::LayeredBeam shape;
  shape.length = 40 * (t1 + t2);
  shape.width = t1 + t2;
  shape.board_thickness = t1;
  shape.shaft_depth = t2;
  shape.cells_along = 24;
  shape.glue_line = false;
  BeamMaterials materials{elastic(E1, E1, E1 / 2), elastic(E2, E2, E2 / 2), {}, 1e-4};
  materials.board.expansion = {board / 10, 0, 0};
  materials.shaft.expansion = {shaft / 10, 0, 0};
  const Beam beam(shape, materials);
  TimeRun run(beam);
  run.step(materials::reference_temperature + 10, 60);
  const double h = shape.length / 4;
  const auto height = [&](double x) {
    return solver::evaluate(beam.lift(x), run.state.displacement);
  };
  return (height(h) - 2 * height(2 * h) + height(3 * h)) / (h * h);
}

void expect_curvature(const std::string &what, double expected, double got)
{
  report("Bimetal, " + what, "curvature, 1/m", "Timoshenko 1925 (from memory)", expected, got,
         0.03 * std::abs(expected));
  EXPECT_NEAR(got / expected, 1, 0.03) << what;
}
} // namespace

// w = P L^3/(48 EI) + P L/(4 (5/6) G A), Timoshenko's beam with the shear part.
TEST(Beam, ThreePointSagIncludesShear)
{
  const double solid = three_point_sag(0, 0.022);
  report("Three-point bending, solid 50 x 22 mm", "sag, mm", "Timoshenko beam with shear",
         0.73180 + 0.01169, solid, 0.03 * 0.7435);
  EXPECT_NEAR(solid / (0.73180 + 0.01169), 1, 0.03);
  const double composite = three_point_sag(0.006, 0.016);
  report("Three-point bending, board 6 mm on shaft 16 mm", "sag, mm", "Timoshenko beam with shear",
         0.76267 + 0.01169, composite, 0.03 * 0.7744);
  EXPECT_NEAR(composite / (0.76267 + 0.01169), 1, 0.03);
  // The shear part itself, 1.5 % of the sag, must be there: a model without it would pass above.
  EXPECT_NEAR(solid - 0.73180, 0.01169, 0.3 * 0.01169);
}

// Timoshenko 1925, J. Opt. Soc. Am. 11:233 (from memory). Layer 1 is the board.
TEST(Bimetal, CurvatureFollowsTimoshenko)
{
  expect_curvature("1 mm on 1 mm, E 210 and 105 GPa", 0.509091,
                   bilayer_curvature(1e-3, 210e9, 0, 1e-3, 105e9, 7e-4));
  expect_curvature("equal layers, 10 mm in all", 0.150000,
                   bilayer_curvature(5e-3, 10e9, 0, 5e-3, 10e9, 1e-3));
  expect_curvature("board 6 mm on shaft 16 mm", -4.21677e-3,
                   bilayer_curvature(6e-3, 12.65e9, -1.2e-4, 16e-3, 13.86e9, -2.0e-4));
  expect_curvature("wood across wood, 4 mm on 4 mm", -2.24610,
                   bilayer_curvature(4e-3, 10.8e9, 0, 4e-3, 0.60e9, -0.024));
}
} // namespace overbend::tests
