// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <array>

// Integrals over one cell that the conduction of heat and the diffusion of water share.
namespace overbend::solver
{
constexpr unsigned pairs_per_cell = nodes_per_cell * nodes_per_cell;
using CellMatrix = std::array<double, pairs_per_cell>; // row-major, by node and node

struct CellForms
{
  CellMatrix mass{};   // integral of N_a N_b, m^3
  CellMatrix spread{}; // of grad N_a . grad N_b, m
  CellMatrix along{};  // of (l . grad N_a)(l . grad N_b), l the grain, m
};

// By the Gauss points of the cell. A material with k along the grain and k' across conducts by
// k' spread + (k - k') along.
CellForms cell_forms(const Space &space, unsigned cell, const Vec3 &grain);

// Integral of each shape function over its cells: the volume a node stands for, m^3; summed over
// all nodes it is that of the space. Throws std::runtime_error if one is not positive.
std::vector<double> node_volumes(const Space &space);
} // namespace overbend::solver
