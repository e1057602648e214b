// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/mechanics.h"

#include <algorithm>

// The assembled matrix of a step, which the factor is made from.
namespace overbend::solver
{
void Mechanics::make_pattern(const std::vector<Spring> &springs)
{
  // The pattern needs a new ordering only when a spring reaches unknowns that it did not couple.
  const auto fits = [&](const Spring &s) {
    for (const auto &[i, a] : s.row)
      for (const auto &[j, b] : s.row) {
        const auto begin = matrix.column.begin() + matrix.row_start[i];
        const auto end = matrix.column.begin() + matrix.row_start[i + 1];
        if (!std::binary_search(begin, end, static_cast<int>(j)))
          return false;
      }
    return true;
  };
  if (matrix.row_start.size() > 1 &&
      std::all_of(springs.begin(), springs.end(),
                  [&](const Spring &s) { return !s.in_factor || fits(s); }))
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
  for (const Spring &s : springs)
    if (s.in_factor) {
      group.clear();
      for (const auto &entry : s.row)
        group.push_back(entry.first);
      pattern.add_group(group);
    }
  matrix = pattern.build();
  factor.reset();
  factor_is_stale = true;
}

void Mechanics::add_cells_to_matrix()
{
  ElementMatrix element;
  for (unsigned c = 0; c < model.space.n_cells; ++c) {
    element_matrix(model.space, stiffness, c, element);
    const auto &node = model.space.cell_node[c];
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      for (unsigned b = 0; b < nodes_per_cell; ++b)
        for (unsigned i = 0; i < 3; ++i) {
          double *entry = &matrix.at(3 * node[a] + i, 3 * node[b]); // components are neighbours
          for (unsigned j = 0; j < 3; ++j)
            entry[j] += element[(3 * a + i) * 81 + 3 * b + j];
        }
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
