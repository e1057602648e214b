// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/direct_solver.h"

#include "solver/equations/supernodal_factor.h"

#include <stdexcept>

namespace overbend::solver
{
Factor::Factor(Digits the_digits) : digits(the_digits) {}
Factor::~Factor() = default;
Factor::Factor(Factor &&) noexcept = default;
Factor &Factor::operator=(Factor &&) noexcept = default;

bool Factor::empty() const
{
  return !shape;
}

void Factor::reset()
{
  shape.reset();
  quick.reset();
  full.reset();
}

void Factor::factorise(const SparseMatrix &matrix)
{
  if (!shape)
    shape = supernodes_of(matrix);
  if (digits == Digits::some) {
    if (!quick)
      quick = std::make_unique<SupernodalFactor<float>>(shape);
    if (quick->factorise(matrix)) {
      full.reset();
      return;
    }
  }
  if (!full)
    full = std::make_unique<SupernodalFactor<double>>(shape);
  if (!full->factorise(matrix))
    throw std::runtime_error("The equation solver failed: the stiffness is not positive definite"
                             " (something is free to move)");
}

void Factor::solve(std::vector<double> &x) const
{
  if (digits != Digits::all)
    throw std::logic_error("a factor with some digits does not solve equations");
  std::vector<std::vector<double>> one(1);
  one[0].swap(x);
  full->solve(one);
  one[0].swap(x);
}

void Factor::precondition(std::vector<std::vector<double>> &x) const
{
  if (full)
    full->solve(x);
  else
    quick->solve(x);
}
} // namespace overbend::solver
