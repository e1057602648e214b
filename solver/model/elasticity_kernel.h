// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <array>
#include <vector>

// Loops over the cells of the space for small-strain mechanics.
//
// Stress and strain are in model axes, in the order xx, yy, zz, yz, xz, xy, shear strains being
// engineering ones. Sums are factorised over the three directions of the cell: about 6,000
// multiplications a cell, and nothing but the stiffness and the Jacobian is read from memory.
namespace overbend::solver
{
using Voigt = std::array<double, 6>;

// Symmetric 6 x 6 stiffness at a point, upper triangle by rows: 21 numbers, Pa.
using Stiffness = std::array<double, 21>;

Voigt multiply(const Stiffness &stiffness, const Voigt &strain);

// Strain at the quadrature points of all cells, from the displacement (3 a node).
std::vector<Voigt> strains(const Space &space, const std::vector<double> &displacement);

// force += sum over cells of integral B^T stress. stress: one a quadrature point.
void add_internal_force(const Space &space, const std::vector<Voigt> &stress,
                        std::vector<double> &force);

// force += K displacement, with the stiffness at each quadrature point, without assembling K.
void add_stiffness_times(const Space &space, const std::vector<Stiffness> &stiffness,
                         const std::vector<double> &displacement, std::vector<double> &force);

// Element stiffness, 81 x 81 row-major, unknowns 3 * local node + component.
using ElementMatrix = std::array<double, 81 * 81>;
void element_matrix(const Space &space, const std::vector<Stiffness> &stiffness, unsigned cell,
                    ElementMatrix &matrix);
} // namespace overbend::solver
