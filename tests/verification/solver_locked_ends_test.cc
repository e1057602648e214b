// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// A glue line that is soft in the middle and hard at its ends. A beam of two layers (board 6 mm,
// E 12.65 GPa; shaft 16 mm, E 13.86 GPa; 50 mm wide, 460 mm long, glue 0.1 mm) is bent to a
// uniform curvature with the glue soft, the glue hardens, the beam is let go.
namespace overbend::tests
{
namespace
{
constexpr double length = 0.46, width = 0.05, glue_thickness = 0.1e-3, curvature = 0.05;
const char *source = "shear-lag computation (estimate)";

// The shear-lag computation leaves the wood's own shear out; real wood has this one.
constexpr double real_shear = 1.4e9, no_shear_strain = 1e12;

Beam make_beam(double wood_shear, double soft, double hard, double near_end, double far_end)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.width = width;
  shape.cells_along = 46;
  shape.end_cell = 0.003;
  Beam beam(shape, {elastic(12.65e9, 1e9, wood_shear), elastic(13.86e9, 1e9, wood_shear),
                    elastic_glue(soft), glue_thickness});
  add_glue_line(beam.model, elastic_glue(hard), glue_thickness);
  for (solver::GluePoint &point : beam.model.glue_point) {
    const double x = beam.model.space.position[point.upper][0];
    if (x < near_end || x > length - far_end)
      point.line = 1;
  }
  return beam;
}

// Forces that hold every node at the height of an arc.
std::vector<double> forces_of_the_bend(const Beam &beam)
{
  std::vector<std::pair<unsigned, double>> held = beam.held();
  for (unsigned n = 0; n < beam.model.space.n_nodes; ++n) {
    const double x = beam.model.space.position[n][0];
    held.emplace_back(3 * n + 2, -curvature * x * (length - x) / 2);
  }
  TimeRun run(beam.model, held);
  run.mechanics.tolerance = 1e-12;
  run.step(run.temperature, 0);
  std::vector<double> force = beam.no_load();
  solver::add_internal_force(beam.model.space, model_stress(beam.model, run.state), force);
  for (unsigned n = 0; n < beam.model.space.n_nodes; ++n)
    force[3 * n] = force[3 * n + 1] = 0; // the glue's share; nothing is held along and across
  return force;
}

// Share of the bow that is left when the beam, all its glue hard, is let go.
double retained(double wood_shear, double near_end, double far_end, double locked_modulus = 400e6)
{
  const auto force =
      forces_of_the_bend(make_beam(wood_shear, 0.01e6, locked_modulus, near_end, far_end));
  const Beam hardened = make_beam(wood_shear, 400e6, 400e6, 0, 0);
  return 1 - hardened.bow(hardened.solve(force)) / (curvature * length * length / 8);
}

void expect_share(const std::string &what, double expected, double got, double tolerance)
{
  report("Locked ends", "retained share, " + what, source, expected, got, tolerance);
  EXPECT_NEAR(got, expected, tolerance) << what;
}
} // namespace

TEST(LockedEnds, NothingIsRetainedWhenBothEndsAreHard)
{
  for (const double shear : {no_shear_strain, real_shear}) {
    expect_share("40 mm and 80 mm hard", 0, retained(shear, 0.04, 0.08), 0.02);
    expect_share("20 mm and 80 mm hard", 0, retained(shear, 0.02, 0.08), 0.02);
  }
}

TEST(LockedEnds, MostIsRetainedWhenOneEndCanSlide)
{
  for (const double shear : {no_shear_strain, real_shear}) {
    const double all_soft = retained(shear, 0, 0);
    const double nut = retained(shear, 0.04, 0), body = retained(shear, 0, 0.08);
    expect_share("all soft", 0.56, all_soft, 0.01);
    expect_share("40 mm at the nut hard", 0.51, nut, 0.01);
    expect_share("80 mm of tongue hard", 0.50, body, 0.01);
    EXPECT_GE(nut, 0.85 * all_soft);
    EXPECT_GE(body, 0.85 * all_soft);
  }
}

TEST(LockedEnds, HalfHardEndsRetainAPart)
{
  expect_share("both ends at 10 MPa", 0.02, retained(no_shear_strain, 0.04, 0.08, 10e6), 0.01);
  expect_share("both ends at 1 MPa", 0.20, retained(no_shear_strain, 0.04, 0.08, 1e6), 0.01);
}
} // namespace overbend::tests
