// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/strength.h"
#include "solver/mechanics/mechanics.h"

#include <optional>

namespace overbend::solver
{
// Share of strength that the mean stress of a cell uses: stress at the corners of a cell is a
// matter of the mesh. Where a line between strips cuts the cell, each wood has the mean over its
// own points, in its own axes and against its own strength, and the most used one counts. Strips of
// one wood and grain side by side are one wood.
// Temperature (K) and moisture (kg/kg; none: as it was built) are those of the cell's middle.
materials::Use use_in_cell(const Model &model, const MechanicsState &state, unsigned cell,
                           double temperature, std::optional<double> moisture);
} // namespace overbend::solver
