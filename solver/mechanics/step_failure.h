// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <string>
#include <vector>

// Words for a step whose equations do not come to rest: where on the neck, and what does not rest.
namespace overbend::solver
{
// The place of the largest entry among the displacements' unknowns (a residual, a direction, a
// displacement; what is not finite counts as the largest): "in the board, 12.3 mm (0.48 in) from
// the nut, 5.0 mm (0.20 in) towards the treble side". Other unknowns: "in the tipping of the body".
std::string place_of_largest(const Space &space, const std::vector<double> &unknowns);

// "bass cord, cradle (at 12 places)": each name once, with how often it is there.
std::string counted(const std::vector<std::string> &names);
} // namespace overbend::solver
