// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/strength.h"
#include "solver/mechanics/mechanics.h"
#include "solver/strength/stress_boxes.h"

#include <vector>

// The stress that strength is judged by: its mean over a box of a fixed size, not over a cell.
//
// The edge L of the box is 2.5 mm [E], across the depth d of the piece at most d/5. Wood does not
// break at a point: a zone of the size of its structure gives way first, and a mean over a length
// follows tests of notched pieces where the stress at a corner, which has no bound, cannot
// (mean-stress criterion, Whitney and Nuismer 1974; lengths told for wood: 2 to 10 mm; from
// memory). L is also the size effect. At a bent surface the mean is 1 - L/d of the stress there, so
// against the test piece, 50 mm deep, a neck of 15 mm counts as 0.95/0.83 = 1.14 times as strong;
// the size effect of bending, (50 mm/d)^(1/9) (glued timber's, from memory), says the same 1.14,
// and within 2.5 % from 12.5 to 25 mm. By this mean the test piece itself breaks at 0.95.
//
// In each cell the stress is the trilinear nearest (least squares over the Gauss points) to its
// values there: the rest of the stress of a quadratic cell is mostly error of the cell (Barlow
// 1976, from memory), and a linear stress is met exactly. Boxes lie along the directions of the
// cell and inside the wood, against the sides of a large cell; where a cell is smaller than L, over
// its neighbours of the same wood too, never across a glue line. In a cell that a line between
// strips cuts, each wood has the mean over its own points.
namespace overbend::solver
{
class StressMeans
{
public:
  explicit StressMeans(const Model &model);

  // Mean stress of each box in the axes of its wood, Pa.
  std::vector<materials::Vector6> stress(const Model &model, const MechanicsState &state) const;

  // Share of strength that each box uses, at the temperature (K) and moisture (kg/kg; empty: as
  // built) of the middle of its cell.
  std::vector<materials::Use> use(const Model &model, const MechanicsState &state,
                                  const std::vector<double> &temperature,
                                  const std::vector<double> &moisture) const;

  const StressBoxes boxes;
};
} // namespace overbend::solver
