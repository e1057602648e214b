// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Torsion of prisms with free warping, against Saint-Venant's solutions. Both end sections turn
// about x as rigid bodies in their plane; along x all nodes are free. That is the exact state of
// uniform torsion, so a short piece of the bar does.
namespace overbend::tests
{
namespace
{
// Torsional stiffness C = torque/(rate of twist), N m^2.
double torsional_stiffness(const Beam &beam)
{
  const double length = beam.shape.length, rate = 0.01; // rad/m
  std::vector<std::pair<unsigned, double>> held;
  const unsigned bottom = beam.node(0, 0, -beam.shape.shaft_depth);
  held.emplace_back(3 * bottom, 0);
  if (!beam.model.glue_point.empty()) // without glue nothing else holds the board along x
    held.emplace_back(3 * beam.node(0, 0, beam.shape.board_thickness, true), 0);
  const auto end_nodes = nodes_where(
      beam.model.space, [&](const solver::Vec3 &p) { return p[0] < 1e-9 || p[0] > length - 1e-9; });
  for (const unsigned n : end_nodes) {
    const solver::Vec3 &p = beam.model.space.position[n];
    held.emplace_back(3 * n + 1, -rate * p[0] * p[2]);
    held.emplace_back(3 * n + 2, rate * p[0] * p[1]);
  }
  TimeRun run(beam.model, held);
  run.mechanics.tolerance = 1e-11;
  run.step(run.temperature, 0);
  // The glue adds equal and opposite forces at one place: no torque.
  std::vector<double> force = beam.no_load();
  solver::add_internal_force(beam.model.space, model_stress(beam.model, run.state), force);
  double torque = 0;
  for (const unsigned n : end_nodes) {
    const solver::Vec3 &p = beam.model.space.position[n];
    if (p[0] > length / 2)
      torque += p[1] * force[3 * n + 2] - p[2] * force[3 * n + 1];
  }
  return torque / rate;
}

materials::Wood with_shear(double along_y, double along_z)
{
  materials::Wood wood = elastic(12e9, 1e9, 0.3e9);
  wood.G_LR = along_y; // R is y in the beam's axes
  wood.G_LT = along_z;
  return wood;
}

double rectangle(double G_y, double G_z)
{
  mesh::LayeredBeam shape;
  shape.length = 0.02;
  shape.width = 0.05;
  shape.board_thickness = 0;
  shape.shaft_depth = 0.02;
  shape.cells_along = 1;
  shape.cells_across = 8;
  shape.cells_shaft = 4;
  return torsional_stiffness({shape, {with_shear(G_y, G_z), with_shear(G_y, G_z), {}}});
}

// Board 50 x 6 mm above the line, shaft inside |y/25|^2.2 + |z/16|^2.2 <= 1 (mm) below it.
double d_section(double G_y, double G_z, double glue_modulus)
{
  mesh::LayeredBeam shape;
  shape.length = 0.02;
  shape.width = 0.05;
  shape.board_thickness = 0.006;
  shape.shaft_depth = 0.016;
  shape.back_exponent = 2.2;
  shape.cells_along = 1;
  shape.cells_board = 3;
  shape.cells_shaft = 4;
  shape.cells_core = 4;
  shape.cells_outer = 4;
  shape.glue_line = glue_modulus >= 0;
  return torsional_stiffness({shape,
                              {with_shear(1.1e9, 0.9e9), with_shear(G_y, G_z),
                               elastic_glue(std::max(glue_modulus, 0.)), 1e-4}});
}
} // namespace

// Lekhnitskii 1963 (from memory), sugar maple, G_LR 1.5385, G_LT 0.8732 GPa.
TEST(Torsion, OrthotropicRectangleHasTheStiffnessOfSaintVenant)
{
  const double flat = rectangle(1.5385e9, 0.8732e9), quarter = rectangle(0.8732e9, 1.5385e9);
  report("Torsion, 50 (R) x 20 (T) mm", "C, N m^2", "Lekhnitskii 1963 (from memory)", 136.857, flat,
         0.03 * 136.857);
  report("Torsion, 50 (T) x 20 (R) mm", "C, N m^2", "Lekhnitskii 1963 (from memory)", 94.316,
         quarter, 0.03 * 94.316);
  EXPECT_NEAR(flat / 136.857, 1, 0.03);
  EXPECT_NEAR(quarter / 94.316, 1, 0.03);
}

// Share of the bonded stiffness left when the glue slips: computed by others from the warping
// function with an elastic line (estimate), flat-sawn and quarter-sawn shaft.
TEST(Torsion, SlipOfTheGlueSoftensADSection)
{
  const double table[8][3] = {{400, 0.997, 0.997}, {30, 0.969, 0.966}, {10, 0.918, 0.910},
                              {3, 0.802, 0.778},   {1, 0.662, 0.612},  {0.3, 0.549, 0.470},
                              {0.1, 0.501, 0.408}, {0, 0.473, 0.371}};
  const double flat_bonded = d_section(1.54e9, 0.873e9, -1);
  const double quarter_bonded = d_section(0.873e9, 1.54e9, -1);
  for (const auto &[MPa, flat_expected, quarter_expected] : table) {
    const double flat = d_section(1.54e9, 0.873e9, 1e6 * MPa) / flat_bonded;
    const double quarter = d_section(0.873e9, 1.54e9, 1e6 * MPa) / quarter_bonded;
    const std::string glue = "GJ share, glue " + std::to_string(MPa) + " MPa, ";
    report("Torsion with slip, D section", glue + "flat-sawn", "warping function (estimate)",
           flat_expected, flat, 0.03 * flat_expected);
    report("Torsion with slip, D section", glue + "quarter-sawn", "warping function (estimate)",
           quarter_expected, quarter, 0.03 * quarter_expected);
    EXPECT_NEAR(flat / flat_expected, 1, 0.03) << MPa;
    EXPECT_NEAR(quarter / quarter_expected, 1, 0.03) << MPa;
  }
}
} // namespace overbend::tests
