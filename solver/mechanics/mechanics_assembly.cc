// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/parallel.h"
#include "solver/mechanics/mechanics.h"

#include <algorithm>

// The assembled matrix of a step, which the factor is made from.
namespace overbend::solver
{
namespace
{
constexpr std::size_t pairs_of_nodes = nodes_per_cell * nodes_per_cell;

std::vector<unsigned> unknowns_of(const Spring &spring)
{
  std::vector<unsigned> group;
  for (const auto &entry : spring.row)
    group.push_back(entry.first);
  return group;
}

// Whether the pattern has an entry for each pair of the group.
bool couples(const SparseMatrix &matrix, const std::vector<unsigned> &group)
{
  for (const unsigned i : group)
    for (const unsigned j : group)
      if (!std::binary_search(matrix.column.begin() + matrix.row_start[i],
                              matrix.column.begin() + matrix.row_start[i + 1], int(j)))
        return false;
  return true;
}
} // namespace

// A pattern serves for all springs that were ever in it: what is taken off the bench and put on it
// again costs no new ordering.
void Mechanics::make_pattern(const std::vector<Spring> &springs)
{
  bool fits = matrix.row_start.size() > 1;
  for (const Spring &s : springs)
    if (s.in_factor) {
      const auto [group, is_new] = spring_groups.insert(unknowns_of(s));
      fits = fits && (!is_new || couples(matrix, *group));
    }
  if (fits)
    return;

  PatternBuilder pattern(model.n_unknowns());
  std::vector<unsigned> group;
  for (const auto &nodes : model.space.cell_node) {
    group.clear();
    for (const unsigned n : nodes)
      group.insert(group.end(), {3 * n, 3 * n + 1, 3 * n + 2});
    pattern.add_group(group);
  }
  for (const GluePoint &p : model.glue_point)
    if (p.lower >= 0) {
      const unsigned l = p.lower;
      pattern.add_group(
          {3 * p.upper, 3 * p.upper + 1, 3 * p.upper + 2, 3 * l, 3 * l + 1, 3 * l + 2});
    }
  for (const auto &of_spring : spring_groups)
    pattern.add_group(of_spring);
  matrix = pattern.build();
  place_cells();
  factor.reset();
  factor_is_stale = true;
}

// Places of the cells' entries in the matrix: for each cell, pair of nodes and component of the
// first the place of the block's row; components of the second are neighbours there. Only pairs on
// or left of the diagonal, which is all that a factor looks at.
void Mechanics::place_cells()
{
  cell_entry.assign(std::size_t(model.space.n_cells) * pairs_of_nodes * 3, 0);
  std::size_t k = 0;
  for (const auto &node : model.space.cell_node)
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      for (unsigned b = 0; b < nodes_per_cell; ++b)
        for (unsigned i = 0; i < 3; ++i, ++k)
          if (node[b] <= node[a])
            cell_entry[k] = unsigned(&matrix.at(3 * node[a] + i, 3 * node[b]) - &matrix.value[0]);
}

// A few cells at a time: first their matrices, half of them on each thread, then their sums, where
// each thread has the rows of half of the nodes, so that sums come in the order of the cells.
void Mechanics::add_cells_to_matrix()
{
  constexpr unsigned together = 64;
  if (element.empty())
    element.resize(together);
  const Space &space = model.space;
  for (unsigned first = 0; first < space.n_cells; first += together) {
    const unsigned n = std::min(together, space.n_cells - first);
    in_two_threads(n, [&](std::size_t begin, std::size_t end) {
      for (std::size_t c = begin; c < end; ++c)
        element_matrix(space, stiffness, unsigned(first + c), element[c]);
    });
    in_two_threads(space.n_nodes, [&](std::size_t begin, std::size_t end) {
      for (unsigned c = 0; c < n; ++c)
        add_rows_of_cell(first + c, element[c], unsigned(begin), unsigned(end));
    });
  }
}

// The rows of nodes from `begin` to before `end`.
void Mechanics::add_rows_of_cell(unsigned cell, const ElementMatrix &k, unsigned begin,
                                 unsigned end)
{
  const auto &node = model.space.cell_node[cell];
  for (unsigned a = 0; a < nodes_per_cell; ++a) {
    if (node[a] < begin || node[a] >= end)
      continue;
    const unsigned *entry =
        &cell_entry[(std::size_t(cell) * nodes_per_cell + a) * 3 * nodes_per_cell];
    for (unsigned b = 0; b < nodes_per_cell; ++b, entry += 3)
      if (node[b] <= node[a])
        for (unsigned i = 0; i < 3; ++i)
          for (unsigned j = 0; j < 3; ++j)
            matrix.value[entry[i] + j] += k[(3 * a + i) * 81 + 3 * b + j];
  }
}

void Mechanics::add_glue_to_matrix()
{
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const double normal = model.glue_line[p.line].law->normal_stiffness();
    const double shear = glue_step[g].stiffness;
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j) {
        const double k = p.weight * (shear * (p.along[i] * p.along[j] + p.across[i] * p.across[j]) +
                                     normal * p.normal[i] * p.normal[j]);
        matrix.at(3 * p.upper + i, 3 * p.upper + j) += k;
        if (p.lower < 0)
          continue;
        const unsigned l = p.lower;
        matrix.at(3 * l + i, 3 * l + j) += k;
        matrix.at(3 * p.upper + i, 3 * l + j) -= k;
        matrix.at(3 * l + i, 3 * p.upper + j) -= k;
      }
  }
}

void Mechanics::add_springs_to_matrix()
{
  for (std::size_t s = 0; s < current_springs.size(); ++s) {
    const Spring &spring = current_springs[s];
    if (!spring_closed[s] || !spring.in_factor)
      continue;
    for (const auto &[i, a] : spring.row)
      for (const auto &[j, b] : spring.row)
        matrix.at(i, j) += spring.stiffness * a * b;
  }
}
} // namespace overbend::solver
