// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/direct_solver.h"

#include <petscmat.h>

#include <algorithm>
#include <cstdlib>
#include <stdexcept>
#include <string>

namespace overbend::solver
{
namespace
{
void check(PetscErrorCode code, const char *what)
{
  if (code != 0)
    throw std::runtime_error(std::string("The equation solver failed: ") + what + " (PETSc code " +
                             std::to_string(code) + ")");
}

// Starts PETSc (and MPI) once, without its signal handlers, and ends it when the program does.
void start_petsc()
{
  static const bool started = [] {
    PetscBool running = PETSC_FALSE;
    PetscInitialized(&running);
    if (running)
      return true;
    check(PetscInitializeNoArguments(), "start");
    PetscPopSignalHandler();
    std::atexit([] { PetscFinalize(); });
    return true;
  }();
  (void)started;
}
}  // namespace

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
  Mat matrix = nullptr;
  Mat factor = nullptr;
  SparseMatrix copy;  // PETSc reads these arrays in place

  ~Implementation()
  {
    PetscBool ended = PETSC_FALSE;
    PetscFinalized(&ended);
    if (ended)
      return;
    MatDestroy(&factor);
    MatDestroy(&matrix);
  }
};

Factor::Factor() = default;
Factor::~Factor() = default;

bool Factor::empty() const { return !implementation; }
void Factor::reset() { implementation.reset(); }

void Factor::factorise(const SparseMatrix &matrix)
{
  start_petsc();
  MatFactorInfo info;
  MatFactorInfoInitialize(&info);
  if (!implementation) {
    implementation = std::make_unique<Implementation>();
    Implementation &self = *implementation;
    self.copy = matrix;
    const int n = matrix.size();
    check(MatCreateSeqAIJWithArrays(PETSC_COMM_SELF, n, n, self.copy.row_start.data(),
                                    self.copy.column.data(), self.copy.value.data(), &self.matrix),
          "matrix");
    MatSetOption(self.matrix, MAT_SYMMETRIC, PETSC_TRUE);
    check(MatGetFactor(self.matrix, MATSOLVERMUMPS, MAT_FACTOR_CHOLESKY, &self.factor),
          "MUMPS is missing");
    check(MatCholeskyFactorSymbolic(self.factor, self.matrix, nullptr, &info), "ordering");
  } else {
    std::copy(matrix.value.begin(), matrix.value.end(), implementation->copy.value.begin());
  }
  check(MatCholeskyFactorNumeric(implementation->factor, implementation->matrix, &info),
        "factorisation");
  MatFactorError error;
  check(MatFactorGetError(implementation->factor, &error), "factorisation");
  if (error != MAT_FACTOR_NOERROR)
    throw std::runtime_error("The equation solver failed: the stiffness matrix cannot be factorised"
                             " (something is free to move)");
}

void Factor::solve(std::vector<double> &x) const
{
  Vec b, y;
  check(VecCreateSeq(PETSC_COMM_SELF, x.size(), &b), "vector");
  check(VecDuplicate(b, &y), "vector");
  double *p;
  VecGetArray(b, &p);
  std::copy(x.begin(), x.end(), p);
  VecRestoreArray(b, &p);
  check(MatSolve(implementation->factor, b, y), "back substitution");
  VecGetArray(y, &p);
  std::copy(p, p + x.size(), x.begin());
  VecRestoreArray(y, &p);
  VecDestroy(&b);
  VecDestroy(&y);
}

void Factor::solve(std::vector<std::vector<double>> &x) const
{
  if (x.size() == 1)
    return solve(x.front());
  if (x.empty())
    return;
  const int n = x.front().size(), m = x.size();
  Mat b, y;
  check(MatCreateSeqDense(PETSC_COMM_SELF, n, m, nullptr, &b), "block");
  check(MatCreateSeqDense(PETSC_COMM_SELF, n, m, nullptr, &y), "block");
  double *p;
  MatDenseGetArray(b, &p);
  for (int k = 0; k < m; ++k)
    std::copy(x[k].begin(), x[k].end(), p + std::size_t(k) * n);
  MatDenseRestoreArray(b, &p);
  check(MatMatSolve(implementation->factor, b, y), "back substitution");
  MatDenseGetArray(y, &p);
  for (int k = 0; k < m; ++k)
    std::copy(p + std::size_t(k) * n, p + std::size_t(k + 1) * n, x[k].begin());
  MatDenseRestoreArray(y, &p);
  MatDestroy(&b);
  MatDestroy(&y);
}
}  // namespace overbend::solver
