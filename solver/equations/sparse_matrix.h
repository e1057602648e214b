// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace overbend::solver
{
// A symmetric sparse matrix, both triangles, rows compressed, columns ascending.
struct SparseMatrix
{
  std::vector<int> row_start; // n + 1
  std::vector<int> column;
  std::vector<double> value;

  unsigned size() const { return row_start.size() - 1; }
  double &at(unsigned row, unsigned col); // the entry must be in the pattern
  void add_times(const std::vector<double> &x, std::vector<double> &y) const; // y += A x
};

// Pattern with a full block for each group of unknowns that meet.
class PatternBuilder
{
public:
  explicit PatternBuilder(unsigned n) : columns(n) {}
  // Every unknown of the group couples with every other one.
  void add_group(const std::vector<unsigned> &group);
  SparseMatrix build();

private:
  std::vector<std::vector<unsigned>> columns;
};
} // namespace overbend::solver
