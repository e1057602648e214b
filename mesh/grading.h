// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace overbend::mesh
{
// Sizes wanted along a line: `first` and `last` at its ends, growing inwards by `growth` per unit
// of length up to `largest`: h(x) = min(largest, first + growth (x - from), last + growth (to -
// x)).
struct Grading
{
  double from = 0, to = 1;
  double first = 1, last = 1, largest = 1;
  double growth = 0.5;
};

// Stations that share out the integral of dx/h(x) evenly, both ends included.
// cells = 0: as many cells as the sizes ask for (at least `fewest`).
std::vector<double> stations(const Grading &grading, unsigned cells = 0, unsigned fewest = 1);
} // namespace overbend::mesh
