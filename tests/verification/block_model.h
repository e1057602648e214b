// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/mechanics/mechanics.h"
#include "tests/verification/beam_model.h"

#include <deal.II/base/tensor.h>

// A block of distorted cells with rotated grain, and elasticity by full tensors: an independent way
// to write what the solver does with six components.
namespace overbend::tests
{
using Tensor2 = dealii::Tensor<2, 3>;
using Tensor4 = dealii::Tensor<4, 3>;

// n^3 cells in a cube with edges of 0.1 m. `distortion` moves the nodes, also the middle ones, by
// up to this share of a cell: smooth waves (the same field for every n), or at random.
enum class Distortion { smooth, random };
solver::Model distorted_block(unsigned n, double amount, Distortion kind,
                              const materials::Wood &wood);

// Columns L, R, T of a grain that lies at odd angles to the model axes.
Tensor2 slanting_grain();
Tensor2 grain_of(const solver::PieceModel &piece);

// C_ijkl in model axes, from the nine constants and the grain.
Tensor4 stiffness_tensor(const materials::Wood &wood, const Tensor2 &grain);

// Nodes on the boundary.
std::vector<unsigned> boundary_nodes(const solver::Space &space);

// Nodal loads of a body force (N/m^3).
std::vector<double> body_load(const solver::Model &model,
                              const std::function<solver::Vec3(const solver::Vec3 &)> &force);

// L2 norm of displacement minus an exact field, by 5 points in each direction of each cell.
double l2_error(const solver::Model &model, const std::vector<double> &displacement,
                const std::function<solver::Vec3(const solver::Vec3 &)> &exact);
} // namespace overbend::tests
