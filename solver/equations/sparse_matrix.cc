// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/sparse_matrix.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
double &SparseMatrix::at(unsigned row, unsigned col)
{
  const auto begin = column.begin() + row_start[row], end = column.begin() + row_start[row + 1];
  const auto found = std::lower_bound(begin, end, static_cast<int>(col));
  if (found == end || *found != static_cast<int>(col))
    throw std::logic_error("entry outside the pattern of the matrix");
  return value[found - column.begin()];
}

void SparseMatrix::add_times(const std::vector<double> &x, std::vector<double> &y) const
{
  for (unsigned i = 0; i < size(); ++i) {
    double sum = 0;
    for (int k = row_start[i]; k < row_start[i + 1]; ++k)
      sum += value[k] * x[column[k]];
    y[i] += sum;
  }
}

void PatternBuilder::add_group(const std::vector<unsigned> &group)
{
  for (const unsigned i : group)
    columns[i].insert(columns[i].end(), group.begin(), group.end());
}

SparseMatrix PatternBuilder::build()
{
  SparseMatrix matrix;
  matrix.row_start.push_back(0);
  for (unsigned i = 0; i < columns.size(); ++i) {
    auto &row = columns[i];
    row.push_back(i);
    std::sort(row.begin(), row.end());
    row.erase(std::unique(row.begin(), row.end()), row.end());
    matrix.column.insert(matrix.column.end(), row.begin(), row.end());
    matrix.row_start.push_back(matrix.column.size());
    std::vector<unsigned>().swap(row);
  }
  matrix.value.assign(matrix.column.size(), 0.);
  return matrix;
}
} // namespace overbend::solver
