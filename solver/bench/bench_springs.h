// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"
#include "solver/mechanics/springs.h"
#include "solver/model/model.h"

#include <vector>

// What of the bench is made of the case's device: its pulls, the pads they press the neck on, and
// the stop block, as springs on the model. Forms are of the movement over the bench: that of the
// neck plus, for a body that tips about its pads at x_p by an angle t (nut end up), t (x_p - x).
namespace overbend::solver
{
// One spring a pull. Its elongation is how far the place pulled on moves against the pull, plus
// take-up: of several cords their mean, so that all carry the same; of a strap or caul the mean
// over its area; of an end of the bar that of the rigid bar, clamped to the band of the face below
// it; of a couple arm times the turn of that band. Single pulls are one-sided. A couple's force is
// that of both its ends together, and may have either sign: the pair is rigged the way it is
// needed.
std::vector<Spring> pull_springs(const cases::Case &the_case, const Model &model,
                                 const materials::Tables &tables);

// Of the cradle, or of the caul's two supports.
std::vector<Spring> pad_bearings(const cases::Case &the_case, const Model &model);

// A block that stops the headstock below the middle of the pulls; of posts in line, below the
// centre line beside them. Elongation is minus the way that the headstock goes along the pull.
Spring stop_block(const cases::Case &the_case, const Model &model, const materials::Tables &tables,
                  const std::vector<Spring> &pulls);

// x of the middle of the padding that the body tips on, m.
double pads_position(const cases::Case &the_case);
} // namespace overbend::solver
