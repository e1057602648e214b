// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/sparse_matrix.h"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

namespace overbend::solver
{
// The shape of a Cholesky factor P' L L' P of a pattern, before any number is known: an ordering
// that keeps it small, dense blocks of columns that have the same rows (supernodes), and who does
// what of two threads. By CHOLMOD.
//
// The supernodes form a tree in which each needs only the ones below it. The tree is cut below a
// few supernodes at its top into branches, which two threads work on at once.
struct Supernodes
{
  // A dense block of columns, by columns. Its first n_columns rows are a lower triangle.
  struct Node
  {
    int first, n_columns, n_rows;
    std::size_t rows_at, values_at; // where its rows and values begin
    int parent = -1;                // holds the first row below the triangle; comes after; -1: none
    int n_inside = 0;               // rows that belong to its own branch
    int n_below() const { return n_rows - n_columns; }
  };

  // Throws std::bad_alloc where there is not memory enough for it.
  explicit Supernodes(const SparseMatrix &matrix);

  std::vector<Node> node;
  std::vector<int> row;   // of each node, ascending, in the factor's order
  std::vector<int> order; // of the factor: order[i] is the unknown at place i
  std::vector<std::vector<int>> children;
  std::vector<int> branch[2], top; // nodes of each thread and of neither, ascending
  std::vector<int> top_row;        // rows of the nodes at the top
  std::size_t n_values = 0;
  // For each entry on or left of the matrix's diagonal, by rows: its place in the values.
  std::vector<std::uint32_t> place;

private:
  void analyse(const SparseMatrix &matrix);
  void make_tree();
  void divide();
  void count_rows_inside(const std::vector<char> &is_top);
  void place_entries(const SparseMatrix &matrix);
};

// The shape for a matrix's pattern: one of the last few that were asked for, or a new one. An
// ordering takes longer than making all numbers of a factor, and the same few patterns come again
// with each phase, each field and each speed of the glue.
std::shared_ptr<const Supernodes> supernodes_of(const SparseMatrix &matrix);
} // namespace overbend::solver
