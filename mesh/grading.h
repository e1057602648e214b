// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace overbend::mesh
{
// Cell size wanted along x: h(x) = min(largest, size_p + growth |x - p|) over the marked places p.
struct SizeField
{
  struct Mark
  {
    double x, size;
  };
  double largest = 1;
  double growth = 0.5;
  std::vector<Mark> marks;

  double at(double x) const;
};

// Stations from one place to another that share out the integral of dx/h(x) evenly, both ends
// included. cells = 0: as many cells as the sizes ask for (at least `fewest`).
std::vector<double> stations(const SizeField &field, double from, double to, unsigned cells = 0,
                             unsigned fewest = 1);

// Lines of double density (2 cells + 1: corners and middles) over the unit length, the cells
// becoming smaller from 0 to 1 in one proportion. `decline` is the size at 1 over the size at 0 in
// the limit of many cells: n cells decline by its nth root from one to the next, so that twice as
// many cells have half the size everywhere. 1: even.
std::vector<double> graded_lines(unsigned cells, double decline);
} // namespace overbend::mesh
