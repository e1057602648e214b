// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Partial composite beams against the closed form of Newmark, Siess & Viest 1951 and Granholm 1949
// (from memory of these). Layers: board 6 mm, E 12.65 GPa; shaft 16 mm, E 13.86 GPa; 50 mm wide,
// 460 mm long, glue 0.1 mm.
namespace overbend::tests
{
namespace
{
constexpr double length = 0.46, width = 0.05, t1 = 0.006, t2 = 0.016;
constexpr double E1 = 12.65e9, E2 = 13.86e9, glue_thickness = 0.1e-3;
const char *source = "Newmark, Siess & Viest 1951 (from memory)";

Beam make_beam(double glue_modulus, double wood_shear)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.width = width;
  shape.board_thickness = t1;
  shape.shaft_depth = t2;
  shape.cells_along = 40;
  shape.end_cell = 0.003;
  return {shape,
          {elastic(E1, 1e9, wood_shear), elastic(E2, 1e9, wood_shear), elastic_glue(glue_modulus),
           glue_thickness}};
}

// Sag in the middle of a beam with free ends under a constant moment of 1 N m; the wood's own shear
// is in series with the glue (t/(3G) each layer).
double sag_of_closed_form(const Beam &beam, double glue_modulus, double wood_shear)
{
  const double EI = beam.EI_bonded(), EI0 = beam.EI_layers();
  const double EA = 1 / (1 / (E1 * width * t1) + 1 / (E2 * width * t2)), r = (t1 + t2) / 2;
  const double flexibility = glue_thickness / glue_modulus + (t1 + t2) / 3 / wood_shear;
  const double alpha2 = width / flexibility * (1 / EA + r * r / EI0);
  return length * length / 8 / EI +
         (1 / EI0 - 1 / EI) * (1 - 1 / std::cosh(std::sqrt(alpha2) * length / 2)) / alpha2;
}

double retained_share(const Beam &beam)
{
  const double rigid = length * length / 8 / beam.EI_bonded();
  return 1 - rigid / beam.bow(beam.solve(beam.end_moments(1)));
}
} // namespace

TEST(PartialComposite, RetainedShareFollowsTheShearLagCurve)
{
  const double wood_shear = 1.4e9;
  for (const double G : {1e6, 0.3e6, 0.1e6, 0.03e6, 0.01e6}) {
    const Beam beam = make_beam(G, wood_shear);
    const double rigid = length * length / 8 / beam.EI_bonded();
    const double expected = 1 - rigid / sag_of_closed_form(beam, G, wood_shear);
    const double retained = retained_share(beam);
    report("Partial composite, constant moment",
           "retained share at G = " + std::to_string(G / 1e6) + " MPa",
           std::string(source) + ", wood shear in series", expected, retained, 0.01);
    EXPECT_NEAR(retained, expected, 0.01);
  }
}

// The table of retained shares (computed from the same closed form, wood without shear).
TEST(PartialComposite, RetainedShareWithShearStiffWoodFollowsTheTable)
{
  const double table[4][2] = {{0.3e6, 0.260}, {0.1e6, 0.415}, {0.03e6, 0.519}, {0.01e6, 0.558}};
  for (const auto &[G, expected] : table) {
    const double retained = retained_share(make_beam(G, 1e12));
    report("Partial composite, constant moment, shear-stiff wood",
           "retained share at G = " + std::to_string(G / 1e6) + " MPa", source, expected, retained,
           0.01);
    EXPECT_NEAR(retained, expected, 0.01);
  }
}

TEST(PartialComposite, ConstantMomentSagsAsTheClosedFormSays)
{
  const Beam beam = make_beam(0.1e6, 1e12);
  const double sag = beam.bow(beam.solve(beam.end_moments(10)));
  report("Partial composite, constant moment 10 N m", "sag, mm", source, 0.766039, 1e3 * sag,
         0.00766);
  EXPECT_NEAR(1e3 * sag / 0.766039, 1, 0.01);
}

TEST(PartialComposite, UniformLoadSagsAsTheClosedFormSays)
{
  const Beam beam = make_beam(0.1e6, 1e12);
  const auto load =
      traction_load(beam.model, mesh::Face::board_top, [](const solver::Vec3 &) -> solver::Vec3 {
        return {0, 0, -100 / width};
      });
  const double sag = beam.bow(beam.solve(load));
  report("Partial composite, simply supported, 100 N/m", "sag, mm", source, 0.170279, 1e3 * sag,
         0.0017);
  EXPECT_NEAR(1e3 * sag / 0.170279, 1, 0.01);
}
// A layer between a held board and a shaft with a uniform traction on the line: the slip is
// t tau/G along and across, the opening t sigma/(K + 4G/3); nothing else strains.
TEST(GlueLine, YieldsAsAThinLayerAlongAcrossAndNormal)
{
  const double G = 1e6, traction = 100;
  const Beam beam = make_beam(G, 1.4e9);
  std::vector<std::pair<unsigned, double>> held;
  for (unsigned c = 0; c < beam.model.space.n_cells; ++c)
    if (beam.model.space.piece[c] == unsigned(mesh::Piece::board))
      for (const unsigned n : beam.model.space.cell_node[c])
        for (unsigned i = 0; i < 3; ++i)
          held.emplace_back(3 * n + i, 0);
  const char *direction[3] = {"along", "across", "normal"};
  const double expected[3] = {1e9 * traction * glue_thickness / G,
                              1e9 * traction * glue_thickness / G,
                              1e9 * traction * glue_thickness / (3e9 + 4. / 3 * G)};
  for (unsigned i = 0; i < 3; ++i) {
    TimeRun run(beam.model, held);
    run.mechanics.tolerance = 1e-12;
    run.load = traction_load(beam.model, mesh::Face::board_glue_lower, [&](const solver::Vec3 &) {
      solver::Vec3 t{};
      t[i] = traction;
      return t;
    });
    run.step(run.temperature, 0);
    run.step(run.temperature, 0); // once more: what is in equilibrium must stay
    const double moved = 1e9 * run.state.displacement[3 * beam.node(length / 2, 0, 0) + i];
    report("Glue line as a thin layer", std::string("displacement ") + direction[i] + ", nm",
           "layer in simple shear and confined tension", expected[i], moved, 1e-8 * expected[i]);
    EXPECT_NEAR(moved / expected[i], 1, 1e-8);
  }
}
} // namespace overbend::tests
