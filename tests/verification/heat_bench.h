// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"
#include "solver/climate/heat.h"
#include "tests/verification/heat_block.h"

#include <string>

// A straight neck with a bar on its board, as on the bench.
namespace overbend::tests
{
// A two-layer beam with a round back: board 6 mm of rosewood on maple, both near 8 % moisture.
inline solver::Model beam_model(unsigned cells_along = 24, unsigned board_cells = 2)
{
  mesh::LayeredBeam beam;
  beam.length = 0.42;
  beam.width = 0.05;
  beam.cells_along = cells_along;
  beam.cells_board = board_cells;
  beam.back_exponent = 2.2;
  const mesh::NeckMesh mesh = mesh::make_layered_beam(beam);
  solver::Model model;
  model.space = solver::make_space(mesh);
  model.glue_point = solver::pair_nodes(model.space, id(mesh::Face::board_glue_upper),
                                        id(mesh::Face::board_glue_lower), 0);
  for (auto &piece : model.piece) {
    piece.conductivity_across = 0.161;
    piece.conductivity_along = 0.29;
    piece.heat_capacity = 678 * 1586;
  }
  auto &board = model.piece[unsigned(mesh::Piece::board)];
  board.conductivity_across = 0.200;
  board.conductivity_along = 0.36;
  board.heat_capacity = 864 * 1586;
  return model;
}

inline solver::BarOnBoard bar_of(const std::string &metal, double thickness)
{
  const materials::Bar &row = materials::tables().bar(metal);
  solver::BarOnBoard bar;
  bar.width = 0.04;
  bar.thickness = thickness;
  bar.from = -0.01;
  bar.to = 0.40;
  bar.conductivity = row.conductivity;
  bar.heat_capacity = row.density * row.heat_capacity;
  bar.contact = 100;
  bar.film = 10;
  bar.air = celsius(20);
  bar.iron_from = 0.07;
  bar.iron_to = 0.26;
  bar.sensor = 0.19;
  bar.board_face = id(mesh::Face::board_top);
  return bar;
}

inline cases::Heater heater_of(const solver::BarOnBoard &bar)
{
  cases::Heater heater;
  heater.metal = cases::BarMaterial::aluminium;
  heater.width = bar.width;
  heater.thickness = bar.thickness;
  heater.from = bar.from;
  heater.to = bar.to;
  heater.contact = bar.contact;
  heater.film = bar.film;
  heater.iron_from = bar.iron_from;
  heater.iron_to = bar.iron_to;
  heater.power = 100;
  heater.bar_sensor = bar.sensor;
  return heater;
}

inline cases::Phase phase_of(const std::string &name, double duration, bool heater,
                             double degrees = 57)
{
  cases::Phase phase;
  phase.name = name;
  phase.duration = duration;
  phase.heater = heater;
  phase.bar_temperature = celsius(degrees);
  phase.air.temperature = celsius(21);
  return phase;
}
} // namespace overbend::tests
