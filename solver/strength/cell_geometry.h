// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/model.h"

#include <array>
#include <vector>

namespace overbend::solver
{
// Where a cell lies, as needed to lay boxes into it. t in [-1, 1]^3 are its own coordinates.
struct CellGeometry
{
  Vec3 middle{};
  std::array<Vec3, 3> edge{}; // dx/dt at the middle, m: half from one side to the other
  std::array<double, 3> size{};
  std::array<Vec3, 3> to_t{}; // rows: t_d = to_t[d] . (x - middle), as if it were no more curved
  std::array<int, 6> neighbour{}; // over the low and high side of each direction; -1: none

  Vec3 t_of(const Vec3 &offset) const; // of a vector from the middle
  double volume() const;               // of the parallelepiped of its edges, m^3
};

std::vector<CellGeometry> cell_geometry(const Space &space);

// Place of t in a cell.
Vec3 place_in(const Space &space, unsigned cell, const Vec3 &t);

// How deep the board, or the neck below it, is where a cell lies: across the neck's sides and its
// grain, so that a headstock's slope does not count; and which direction of the cell runs that way.
struct LocalDepth
{
  double depth = 0; // m
  unsigned direction = 0;
};
std::vector<LocalDepth> local_depths(const Model &model, const std::vector<CellGeometry> &cell);
} // namespace overbend::solver
