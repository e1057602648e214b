// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/layered_beam.h"
#include "solver/climate/heat_steps.h"
#include "solver/model/sampling.h"

// Blocks of one material for comparison of the heat equations with closed forms.
namespace overbend::tests
{
constexpr double zero_celsius = 273.15;

inline double celsius(double degrees)
{
  return degrees + zero_celsius;
}
inline unsigned id(mesh::Face face)
{
  return static_cast<unsigned>(face);
}

struct Block
{
  double length = 0.01, width = 0.01, depth = 0.022; // x, y and z from -depth to 0
  unsigned along = 1, across = 1, down = 8;          // cells
  double conductivity = 0.16;                        // W/(m K)
  double diffusivity = 1.5e-7;                       // m^2/s
};

inline solver::Model make_block(const Block &block)
{
  mesh::LayeredBeam beam;
  beam.length = block.length;
  beam.width = block.width;
  beam.board_thickness = 0;
  beam.shaft_depth = block.depth;
  beam.cells_along = block.along;
  beam.cells_across = block.across;
  beam.cells_shaft = block.down;
  const mesh::NeckMesh mesh = mesh::make_layered_beam(beam);
  solver::Model model;
  model.space = solver::make_space(mesh);
  for (solver::PieceModel &piece : model.piece) {
    piece.conductivity_along = piece.conductivity_across = block.conductivity;
    piece.heat_capacity = block.conductivity / block.diffusivity;
  }
  return model;
}

// Time steps small enough that the comparison sees the mesh and not the steps.
inline solver::HeatStepLimits fine_steps()
{
  return {1, 1e5, 0.005};
}

// So well cooled a surface is at the temperature of the air.
constexpr double held = 1e6; // W/(m^2 K)

// Even temperatures but for the surfaces that are held, which have theirs from the start (degC).
inline std::vector<double> start_from(const solver::Model &model,
                                      const solver::HeatSurroundings &surroundings, double degrees)
{
  std::vector<double> start(model.space.n_nodes, celsius(degrees));
  for (const auto &[face, film] : surroundings.film)
    if (film.conductance >= held)
      for (const auto &node : solver::face_nodes(model.space, face))
        start[node.node] = film.air;
  return start;
}
} // namespace overbend::tests
