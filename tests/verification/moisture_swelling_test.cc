// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"
#include "tests/verification/moisture_block.h"

#include <gtest/gtest.h>

#include <cmath>

// Moisture that bends a beam, against beam theory. Directions of bow are not assumed: they come
// from the layers.
namespace overbend::tests
{
namespace
{
constexpr double built = 0.10, length = 0.46;

// Wood that swells along by `slope` a unit of moisture and not across; slow creep is left out.
materials::Wood swelling(double modulus, double slope)
{
  materials::Wood wood = elastic(modulus, 1e9, 1.4e9);
  wood.swelling_L_dry = wood.swelling_L_damp = slope;
  wood.diffusion_12 = 1e-10;
  return wood;
}

void let_swell(solver::Model &model, const materials::Wood &board, const materials::Wood &shaft)
{
  for (unsigned i = 0; i < model.piece.size(); ++i) {
    solver::PieceModel &piece = model.piece[i];
    piece.law = std::make_shared<materials::WoodLaw>(
        i == unsigned(mesh::Piece::board) ? board : shaft, 1, built);
    piece.moisture = built;
    piece.dry_density = 600;
  }
}

std::vector<double> bend(const Beam &beam, const std::vector<double> &moisture)
{
  solver::Mechanics mechanics(beam.model);
  mechanics.hold(beam.held());
  const solver::MechanicsState start = solver::unstressed(beam.model);
  const std::vector<double> T(beam.model.space.n_nodes, 293.15), as_built(T.size(), built);
  mechanics.begin(start, solver::StepClimate{T, T, as_built, moisture, moisture, {}, {}}, 3600);
  std::vector<double> u = start.displacement;
  mechanics.equilibrate(beam.supports(), beam.no_load(), u);
  return u;
}

// Curvature over the middle half, positive where the ends rise.
double curvature(const Beam &beam, const std::vector<double> &u)
{
  const auto at = [&](double share) {
    return solver::evaluate(beam.lift(share * beam.shape.length), u);
  };
  const double half = beam.shape.length / 2;
  return 8 * ((at(0.25) + at(0.75)) / 2 - at(0.5)) / (half * half);
}
} // namespace

// Board 6 mm of 12.65 GPa that shrinks by 1.2e-4 on a shaft of 16 mm, 13.86 GPa, that shrinks by
// 2.0e-4, dried until it is at rest with the air: curvature 4.21677e-3 1/m by Timoshenko. The shaft
// shrinks more, so the ends go down.
TEST(SwellingBeam, DriedToRestTwoLayersBendAsTheBimetal)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.glue_line = false;
  const materials::Wood board = swelling(12.65e9, 1.2e-4 / 0.04),
                        shaft = swelling(13.86e9, 2.0e-4 / 0.04);
  Beam beam(shape, {board, shaft, elastic_glue(1e9)});
  let_swell(beam.model, board, shaft);
  const materials::Finish bare = emitting(1e-6);
  solver::MoistureSurroundings open = one_open_face(bare);
  open.coating[id(mesh::Face::back)] = {&bare, {}};
  solver::MoistureSystem system(beam.model, open);
  solver::MoistureStepper stepper(system, constant_air(system, built - 0.04),
                                  std::vector<double>(system.size(), built), 0);
  run_moisture(stepper, 400 * 86400, {60, 30 * 86400, 1e-3});
  const double got = curvature(beam, bend(beam, stepper.moisture()));
  report("Two-layer strip dried to rest", "curvature, 1/m",
         "Timoshenko 1925 (from memory), materials tables", -4.21677e-3, got, 0.01 * 4.21677e-3);
  EXPECT_NEAR(got / -4.21677e-3, 1, 0.01);
}

// 2 % more moisture at the back than at the top of 22 mm: the back grows longer and the ends rise,
// curvature slope times difference over depth, 0.144 mm over 460 mm for 0.006 along the grain.
TEST(SwellingBeam, AGradientThroughTheDepthBendsByItsSlope)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.board_thickness = 0;
  shape.shaft_depth = 0.022;
  for (const double slope : {0.0023, 0.006, 0.0179}) {
    const materials::Wood wood = swelling(13.86e9, slope);
    Beam beam(shape, {wood, wood, elastic_glue(1e9)});
    let_swell(beam.model, wood, wood);
    std::vector<double> m;
    for (const auto &p : beam.model.space.position)
      m.push_back(built - 0.02 * (p[2] / 0.022 + 0.5));
    const double bow = 1e3 * curvature(beam, bend(beam, m)) * length * length / 8;
    const double expected = 1e3 * slope * 0.02 / 0.022 * length * length / 8;
    report("Linear gradient of moisture, 2 % through 22 mm",
           "bow, mm, slope " + std::to_string(slope), "beam theory", expected, bow,
           1e-3 * std::abs(expected));
    EXPECT_NEAR(bow / expected, 1, 1e-3);
  }
}
} // namespace overbend::tests
