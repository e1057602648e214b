// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/sparse_matrix.h"

#include <memory>
#include <vector>

namespace overbend::solver
{
struct Supernodes;
template <typename Real>
class SupernodalFactor;

// Whether a factor solves equations, or only shows conjugate gradients the way: then six digits are
// enough, in half the time and memory.
enum class Digits { all, some };

// Sparse Cholesky factor of a symmetric positive definite matrix, on two threads.
//
// CHOLMOD finds ordering and shape (supernodes.h), the numbers are made here
// (supernodal_factor.h): CHOLMOD 3 has no single precision, and with it each factor of a neck
// started four threads of OpenMP, however many processors there are.
class Factor
{
public:
  explicit Factor(Digits digits = Digits::all);
  ~Factor();
  Factor(Factor &&) noexcept;
  Factor &operator=(Factor &&) noexcept;

  // Keeps the ordering from the first call on; the pattern must stay the same. A matrix that single
  // precision does not take for positive definite is factorised in double precision instead. Throws
  // std::runtime_error with the solver's word if the matrix cannot be factorised.
  void factorise(const SparseMatrix &matrix);
  bool empty() const;
  // Forgets the ordering: the next matrix may have another pattern.
  void reset();

  // x = A^-1 b, in place. Only with all digits.
  void solve(std::vector<double> &x) const;
  // The same for several vectors at once, to the digits there are.
  void precondition(std::vector<std::vector<double>> &x) const;

private:
  Digits digits;
  std::shared_ptr<const Supernodes> shape;
  std::unique_ptr<SupernodalFactor<float>> quick;
  std::unique_ptr<SupernodalFactor<double>> full;
};
} // namespace overbend::solver
