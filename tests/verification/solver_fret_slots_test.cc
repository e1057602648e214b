// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/names.h"
#include "solver/model/fret_slots.h"
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// A bonded beam of two layers whose board has slots from its top: softer where they open, as stiff
// as wood where they close.
namespace overbend::tests
{
namespace
{
constexpr double length = 0.4, width = 0.05, board = 0.006, shaft = 0.016;
constexpr double E_board = 12e9, E_shaft = 10e9;
// The upper of two rows of cells is cut: its modulus along is this share of the wood's while open.
constexpr double depth = board / 2, open_share = 0.5;

Beam slotted_beam()
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.width = width;
  shape.board_thickness = board;
  shape.shaft_depth = shaft;
  shape.cells_board = 2;
  shape.glue_line = false;
  Beam beam(shape,
            {elastic(E_board, 1e9, 1e12), elastic(E_shaft, 1e9, 1e12), elastic_glue(0), 1e-4});
  const auto &space = beam.model.space;
  beam.model.slot_give.assign(space.jxw.size(), 0.);
  for (unsigned c = 0; c < space.n_cells; ++c)
    if (space.piece[c] == unsigned(mesh::Piece::board) &&
        space.position[space.cell_node[c][13]][2] > depth)
      for (unsigned q = 0; q < solver::points_per_cell; ++q)
        beam.model.slot_give[c * solver::points_per_cell + q] = 1 / open_share - 1;
  return beam;
}

// Bending stiffness of stacked strips about their common middle, N m^2; the cut one first.
double stacked(double cut_share)
{
  const double E[3] = {cut_share * E_board, E_board, E_shaft}, h[3] = {depth, board - depth, shaft};
  const double z[3] = {board - depth / 2, (board - depth) / 2, -shaft / 2};
  double EA = 0, ES = 0, EI = 0;
  for (unsigned i = 0; i < 3; ++i) {
    EA += E[i] * h[i];
    ES += E[i] * h[i] * z[i];
    EI += E[i] * h[i] * (z[i] * z[i] + h[i] * h[i] / 12);
  }
  return width * (EI - ES * ES / EA);
}
} // namespace

TEST(FretSlots, OpenBackwardsAndCloseForwardsAsStackedStripsDo)
{
  const Beam beam = slotted_beam();
  for (const double moment : {-1., 1.}) {
    const double bow = beam.bow(beam.solve(beam.end_moments(moment)));
    const double expected = moment * length * length / 8 / stacked(moment < 0 ? open_share : 1);
    report("Beam with slots, bent", moment < 0 ? "back, bow, m" : "forward, bow, m",
           "stacked strips, closed form", expected, bow, 0.01 * std::abs(expected));
    EXPECT_NEAR(bow / expected, 1, 0.01);
  }
}

// Bent further back from a state with open slots, unit histories are the difference of two runs.
TEST(FretSlots, IncrementsAreLinearWhileTheSlotsStayAsTheyAre)
{
  const Beam beam = slotted_beam();
  TimeRun run(beam);
  run.load = beam.end_moments(-1);
  run.step(293.15, 0);
  const double once = beam.bow(run.state.displacement);
  run.load = beam.end_moments(-3);
  run.step(293.15, 0);
  EXPECT_NEAR(beam.bow(run.state.displacement) / once, 3, 1e-4);
  run.load = beam.end_moments(1); // they close again, and remember nothing
  run.step(293.15, 0);
  EXPECT_NEAR(beam.bow(run.state.displacement) / beam.bow(beam.solve(beam.end_moments(1))), 1,
              1e-4);
}

// Source: a plane finite-element computation (linear quadrilaterals, 22 by 23 cells, half a
// distance of frets with one slot) made for this, outside this program: slots 2.4 mm deep in a
// board of 6 mm with E along 13 GPa, across 1.1, shear 1.3, on 14 mm of shaft: 0.172, 0.222, 0.265
// of the board's stiffness lost. Held to 0.03: its own mesh errs by 0.006. The trade (common
// practice, no source) says 10 to 25 %.
TEST(FretSlots, ABoardLosesWhatAComputationOfOneSlotLoses)
{
  materials::Wood wood = elastic(13e9, 1.1e9, 1.3e9, 0.4);
  const materials::WoodLaw law(wood);
  const std::array<solver::Vec3, 3> axes{solver::Vec3{1, 0, 0}, solver::Vec3{0, 1, 0},
                                         solver::Vec3{0, 0, 1}};
  constexpr double slot = 2.4e-3, thickness = 6e-3;
  const double reach = solver::slot_reach(law, axes, 0.12) * slot;
  std::printf("reach of a slot: %.2f of its depth\n", reach / slot);
  for (const auto &[spacing, lost] :
       {std::pair(0.036, 0.172), std::pair(0.025, 0.222), std::pair(0.018, 0.265)}) {
    const double got = slot / thickness * reach / (spacing + reach);
    report("Fret slots, open",
           "share of board stiffness lost, frets " + std::to_string(int(1e3 * spacing)) +
               " mm apart",
           "plane finite elements, one slot [C]", lost, got, 0.03);
    EXPECT_NEAR(got, lost, 0.03) << spacing;
  }
}
} // namespace overbend::tests
