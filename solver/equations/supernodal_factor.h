// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/supernodes.h"

#include <memory>
#include <vector>

namespace overbend::solver
{
// Numbers of a factor P' L L' P, and the sweeps with it, in single or in double precision.
//
// Multifrontal: a supernode adds what the ones below it leave over to its own entries, is
// factorised as a dense block and leaves over a dense block for its parent (Duff and Reid 1983,
// from memory). Both branches of the tree at once; sums come in a fixed order, so that the last bit
// is the same on one thread and on two.
template <typename Real>
class SupernodalFactor
{
public:
  explicit SupernodalFactor(std::shared_ptr<const Supernodes> shape);

  // The matrix must have the pattern that the shape was made for. False if it is not positive
  // definite to the digits of Real.
  bool factorise(const SparseMatrix &matrix);

  // x = A^-1 x, to the digits of Real, for each vector.
  void solve(std::vector<std::vector<double>> &x);

private:
  // What supernodes leave over, one on the other.
  struct Stack
  {
    std::vector<Real> data;
    std::size_t used = 0;
    Real *push(std::size_t n);
  };
  struct LeftOver // of a node, not yet taken up by its parent
  {
    const Stack *stack = nullptr;
    std::size_t at = 0;
  };
  using Columns = std::vector<std::vector<Real>>; // right sides, in the factor's order

  bool factorise_nodes(const std::vector<int> &nodes, Stack &stack, bool tidy);
  void take_up(const Supernodes::Node &parent, const Supernodes::Node &child, const Real *left,
               Real *update);
  void forward(const std::vector<int> &nodes, Columns &x, Columns &above) const;
  void backward(const std::vector<int> &nodes, Columns &x) const;

  std::shared_ptr<const Supernodes> shape;
  std::vector<Real> value;
  Stack stack[3]; // of the branches and of the top
  std::vector<LeftOver> left_over;
  Columns right, above[2]; // of a sweep, kept from call to call
};
} // namespace overbend::solver
