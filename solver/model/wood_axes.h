// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/wood_law.h"
#include "solver/model/elasticity_kernel.h"
#include "solver/model/model.h"

namespace overbend::solver
{
// 6 x 6 matrix M, row-major, from strain in model axes (xx yy zz yz xz xy) to strain in wood axes
// (LL RR TT RT LT LR), both with engineering shears. Stress goes back by the transpose.
using StrainMap = std::array<double, 36>;

StrainMap strain_map(const std::array<Vec3, 3> &grain);

materials::Vector6 to_wood_axes(const StrainMap &map, const Voigt &strain);
Voigt to_model_axes(const StrainMap &map, const materials::Vector6 &stress);

// Inverse of a compliance, in the same layout (Pa).
materials::Compliance inverse(const materials::Compliance &compliance);

// M^T C M, upper triangle.
Stiffness to_model_axes(const StrainMap &map, const materials::Compliance &stiffness);
} // namespace overbend::solver
