// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

struct cholmod_factor_struct;

namespace overbend::solver
{
// Forward and back substitution with a supernodal factor P' L L' P of CHOLMOD, in single precision
// and on two threads: a preconditioner.
//
// A sweep reads the whole factor twice and computes little, so half the bytes are half the time.
// The supernodes form a tree in which each needs only the ones below it. The tree is cut below a
// few supernodes at its top into branches, which two threads sweep at once; what they add to the
// top is summed in a fixed order, so that the last bit is the same on one thread.
class FactorSweep
{
public:
  // Looks at the shape of the factor; take_values must follow.
  explicit FactorSweep(const cholmod_factor_struct &factor);
  // Copies the values. Their pattern must still be the one of the constructor.
  void take_values(const cholmod_factor_struct &factor);

  // x = A^-1 x, to the six digits of single precision, for each vector.
  void solve(std::vector<std::vector<double>> &x) const;

private:
  // A dense block of columns, by columns. Its first n_columns rows are a lower triangle.
  struct Supernode
  {
    int first, n_columns, n_rows;
    std::size_t rows_at, values_at; // where its rows and values begin
    int n_inside = 0;               // rows that belong to its own branch
    int n_below() const { return n_rows - n_columns; }
  };
  struct Tree;
  using Columns = std::vector<std::vector<float>>; // right sides, in the factor's order

  void divide(const Tree &tree);
  void count_rows_inside(const std::vector<char> &is_top);
  void solve_triangle(const Supernode &node, const char *transposed, float *x) const;
  void forward(const std::vector<int> &nodes, Columns &x, Columns &above) const;
  void backward(const std::vector<int> &nodes, Columns &x) const;

  std::vector<Supernode> supernode;
  std::vector<int> row, order;
  std::vector<float> value;
  std::vector<int> branch[2], top; // supernodes of each thread and of neither, ascending
  std::vector<int> top_row;
};
} // namespace overbend::solver
