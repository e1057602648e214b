// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/direct_solver.h"

#include "solver/equations/blas.h"
#include "solver/equations/factor_sweep.h"

#include <cholmod.h>

#include <algorithm>
#include <optional>
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

struct Factor::Implementation
{
  mutable cholmod_common common{};
  cholmod_factor *factor = nullptr;
  std::vector<int> start, row; // lower triangle by rows = upper triangle by columns
  std::vector<double> value;
  // Work space of the back substitution, kept from call to call.
  mutable cholmod_dense *x = nullptr, *y = nullptr, *e = nullptr;
  mutable std::optional<FactorSweep> sweep; // made when it is first needed
  mutable bool sweep_is_stale = true;

  Implementation()
  {
    pin_blas_to_one_thread();
    cholmod_start(&common);
    common.supernodal = CHOLMOD_SUPERNODAL;
    common.print = 0;
  }
  ~Implementation()
  {
    cholmod_free_dense(&x, &common);
    cholmod_free_dense(&y, &common);
    cholmod_free_dense(&e, &common);
    cholmod_free_factor(&factor, &common);
    cholmod_finish(&common);
  }
  Implementation(const Implementation &) = delete;
  Implementation &operator=(const Implementation &) = delete;

  void copy_triangle(const SparseMatrix &matrix)
  {
    start.assign(1, 0);
    row.clear();
    value.clear();
    for (unsigned i = 0; i < matrix.size(); ++i) {
      for (int k = matrix.row_start[i]; k < matrix.row_start[i + 1]; ++k)
        if (matrix.column[k] <= static_cast<int>(i)) {
          row.push_back(matrix.column[k]);
          value.push_back(matrix.value[k]);
        }
      start.push_back(row.size());
    }
  }

  cholmod_sparse view()
  {
    cholmod_sparse a{};
    a.nrow = a.ncol = start.size() - 1;
    a.nzmax = row.size();
    a.p = start.data();
    a.i = row.data();
    a.x = value.data();
    a.stype = 1; // symmetric, upper triangle given
    a.itype = CHOLMOD_INT;
    a.xtype = CHOLMOD_REAL;
    a.dtype = CHOLMOD_DOUBLE;
    a.sorted = a.packed = 1;
    return a;
  }
};

Factor::Factor() = default;
Factor::~Factor() = default;

bool Factor::empty() const
{
  return !implementation;
}
void Factor::reset()
{
  implementation.reset();
}

void Factor::factorise(const SparseMatrix &matrix)
{
  const bool first = !implementation;
  if (first)
    implementation = std::make_unique<Implementation>();
  Implementation &self = *implementation;
  self.copy_triangle(matrix);
  cholmod_sparse a = self.view();
  if (first)
    self.factor = cholmod_analyze(&a, &self.common);
  if (self.factor == nullptr || self.common.status < 0)
    throw std::runtime_error("The equation solver failed: no memory for the ordering");
  cholmod_factorize(&a, self.factor, &self.common);
  if (self.common.status == CHOLMOD_NOT_POSDEF)
    throw std::runtime_error("The equation solver failed: the stiffness is not positive definite"
                             " (something is free to move)");
  if (self.common.status < 0)
    throw std::runtime_error("The equation solver failed: no memory for the factor");
  self.sweep_is_stale = true;
}

void Factor::solve(std::vector<double> &x) const
{
  const Implementation &self = *implementation;
  cholmod_dense b{};
  b.nrow = b.d = b.nzmax = x.size();
  b.ncol = 1;
  b.x = x.data();
  b.xtype = CHOLMOD_REAL;
  b.dtype = CHOLMOD_DOUBLE;
  if (!cholmod_solve2(CHOLMOD_A, self.factor, &b, nullptr, &self.x, nullptr, &self.y, &self.e,
                      &self.common))
    throw std::runtime_error("The equation solver failed in the back substitution");
  const double *solution = static_cast<const double *>(self.x->x);
  std::copy(solution, solution + x.size(), x.begin());
}

void Factor::precondition(std::vector<std::vector<double>> &x) const
{
  const Implementation &self = *implementation;
  if (!self.sweep)
    self.sweep.emplace(*self.factor);
  if (self.sweep_is_stale)
    self.sweep->take_values(*self.factor);
  self.sweep_is_stale = false;
  self.sweep->solve(x);
}
} // namespace overbend::solver
