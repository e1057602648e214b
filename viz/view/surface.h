// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/results.h"

#include <vector>

namespace overbend::viz
{
// Triangles to look at, with nodes of their own.
struct Surface
{
  std::vector<double> nodes;       // 3 a node, m
  std::vector<unsigned> source;    // index of each in the results
  std::vector<unsigned> triangles; // 3 a triangle, outwards
};

// The faces of cells that no other cell shares, on the corners of the cells.
Surface skin(const solver::MeshData &mesh);

// The glue lines; empty without any.
Surface glue_skin(const solver::MeshData &mesh);
} // namespace overbend::viz
