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
  std::vector<unsigned> edges;     // 2 an edge: where two faces of cells meet at more than 40 deg
};

// The faces of cells that no other cell shares, on the corners of the cells.
Surface skin(const solver::MeshData &mesh);

// The glue lines; empty without any.
Surface glue_skin(const solver::MeshData &mesh);

// A line across the top of the board: its points on bass edge, centre line and treble edge, each
// between two nodes of a surface: a + share * (b - a).
struct AcrossTop
{
  struct Point
  {
    unsigned a = 0, b = 0;
    double share = 0;
  };
  Point bass, centre, treble;
};

// Such lines at places x (m) of the straight neck; those beyond the board are left out.
std::vector<AcrossTop> across_top(const Surface &skin, const std::vector<double> &places);
} // namespace overbend::viz
