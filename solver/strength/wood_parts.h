// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/model.h"

#include <vector>

namespace overbend::solver
{
// One wood in one cell: all its points, or those on one side of a line between strips. Strips of
// one wood and grain side by side are one wood.
struct WoodPart
{
  unsigned cell = 0;
  std::size_t point = 0; // one of its points: its wood and axes are those of all
  bool whole = true;
};

std::vector<WoodPart> parts_of(const Model &model, unsigned cell);

// Whether two points of a cell are of the same wood.
bool is_same_wood(const Model &model, unsigned cell, std::size_t p, std::size_t q);

// Whether two cells, or parts of them, are of one wood: their axes may turn a little from one to
// the next. That they are joined is not asked.
bool is_same_wood(const Model &model, const WoodPart &a, const WoodPart &b);
} // namespace overbend::solver
