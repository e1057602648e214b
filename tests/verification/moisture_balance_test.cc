// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/moisture_block.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// Water is neither made nor lost, and steps of days are harmless.
namespace overbend::tests
{
namespace
{
constexpr double day = 86400;

// A board on a shaft of another wood, with a glue line between.
solver::Model two_layers()
{
  mesh::LayeredBeam beam;
  beam.length = 0.1;
  beam.cells_along = 4;
  const mesh::NeckMesh mesh = mesh::make_layered_beam(beam);
  solver::Model model;
  model.space = solver::make_space(mesh.triangulation, *mesh.mapping);
  for (unsigned i = 0; i < model.piece.size(); ++i) {
    const bool board = i == unsigned(mesh::Piece::board);
    model.piece[i].law = std::make_shared<materials::WoodLaw>(
        materials::tables().wood(board ? "Indian rosewood" : "sugar maple"));
    model.piece[i].dry_density = board ? 750 : 620;
    model.piece[i].grain = {solver::Vec3{0.96, 0.28, 0}, {-0.28, 0.96, 0}, {0, 0, 1}};
  }
  model.glue_point = solver::pair_nodes(model.space, unsigned(mesh::Face::board_glue_upper),
                                        unsigned(mesh::Face::board_glue_lower), 0);
  return model;
}

// Damp below, dry above, uneven along.
std::vector<double> uneven(const solver::Model &model)
{
  std::vector<double> m;
  for (const auto &p : model.space.position)
    m.push_back(0.09 + 2 * p[2] + 0.01 * std::sin(60 * p[0]));
  return m;
}
} // namespace

TEST(WaterBalance, SealedFacesKeepTheWaterToRoundOff)
{
  const solver::Model model = two_layers();
  solver::MoistureSurroundings sealed;
  sealed.glue_conductance = 1.7e-5;
  solver::MoistureSystem system(model, sealed);
  const std::vector<double> start = uneven(model);
  solver::MoistureStepper stepper(system, constant_air(system, 0), start, 0);
  run_moisture(stepper, 60 * day, {60, 10 * day, 1e-3});
  const double before = system.water(start), after = system.water(stepper.moisture());
  report("Sealed beam of two woods, 60 days", "water kept, relative to 1", "conservation", 1,
         after / before, 1e-10);
  EXPECT_NEAR(after / before, 1, 1e-10);
  const auto [low, high] =
      std::minmax_element(stepper.moisture().begin(), stepper.moisture().end());
  EXPECT_LT(*high - *low, 0.02); // it did move: 0.07 apart at the start
}

TEST(WaterBalance, WhatPassesTheFacesIsTheChangeInside)
{
  const solver::Model model = two_layers();
  const materials::Finish bare = emitting(3.2e-8);
  solver::MoistureSurroundings open = one_open_face(bare);
  open.coating[id(mesh::Face::back)] = {&bare, {}};
  open.glue_conductance = 1.7e-5;
  solver::MoistureSystem system(model, open);
  const std::vector<double> start = uneven(model);
  solver::MoistureStepper stepper(system, constant_air(system, 0.04), start, 0);
  double inflow = 0;
  for (const auto &moment : run_moisture(stepper, 30 * day, {60, 10 * day, 1e-3}))
    inflow += moment.inflow;
  const double change = system.water(stepper.moisture()) - system.water(start);
  report("Drying beam of two woods, 30 days", "flow through faces over change inside",
         "conservation", 1, inflow / change, 1e-10);
  EXPECT_LT(change, 0);
  EXPECT_NEAR(inflow / change, 1, 1e-10);
}

// One step far longer than any time of the wood lands at rest; steps of ten days across a jump of
// the air do not swing beyond what was and what will be.
TEST(WaterBalance, StepsOfDaysStayWithinTheirBounds)
{
  const solver::Model model = two_layers();
  const materials::Finish bare = emitting(3.2e-7);
  solver::MoistureSystem system(model, [&] {
    solver::MoistureSurroundings open = one_open_face(bare);
    open.coating[id(mesh::Face::back)] = {&bare, {}};
    open.glue_conductance = 1.7e-5;
    return open;
  }());
  solver::MoistureStepper stepper(system, constant_air(system, 0.05),
                                  std::vector<double>(system.size(), 0.12), 0);
  for (unsigned i = 0; i < 40; ++i) {
    const auto step = stepper.try_step(10 * day);
    stepper.accept(step, 10 * day);
    const auto [low, high] =
        std::minmax_element(stepper.moisture().begin(), stepper.moisture().end());
    EXPECT_GT(*low, 0.05 - 0.02) << i; // a step may overshoot, the next ones bring it back
    EXPECT_LT(*high, 0.12 + 1e-6) << i;
  }
  EXPECT_NEAR(stepper.moisture()[0], 0.05, 1e-4);
}

// Along the grain water runs faster: the front of a rod open at its end.
TEST(WaterBalance, AlongTheGrainWaterRunsAsTheRatioSays)
{
  const double D = 1e-10, ratio = 4, time = 4 * day;
  materials::Wood wood = with_diffusion(D);
  wood.diffusion_ratio_dry = wood.diffusion_ratio_damp = ratio;
  Block block;
  block.depth = 0.04;
  block.down = 12;
  solver::Model model = make_wet_block(block, wood);
  const materials::Finish finish = emitting(at_rest);
  for (const bool along : {false, true}) {
    for (auto &piece : model.piece)
      if (along)
        piece.grain = {solver::Vec3{0, 0, 1}, {1, 0, 0}, {0, 1, 0}};
    solver::MoistureSystem system(model, one_open_face(finish));
    solver::MoistureStepper stepper(system, constant_air(system, 0.12),
                                    std::vector<double>(system.size(), 0.08), 0);
    run_moisture(stepper, time, {1, 1e6, 1e-4});
    const double depth = 0.008, root = std::sqrt(4 * D * (along ? ratio : 1) * time);
    const double expected = 0.08 + 0.04 * std::erfc(depth / root);
    const double got = solver::find_point(model.space, {model.space.position[0][0], 0, -depth})
                           .value(stepper.moisture());
    report("Half space, surface at rest with the air",
           std::string("moisture, % at 8 mm, 4 d, ") + (along ? "along" : "across"),
           "error function (Crank 1975, from memory)", 100 * expected, 100 * got, 0.02);
    EXPECT_NEAR(got, expected, 2e-4);
  }
}
} // namespace overbend::tests
