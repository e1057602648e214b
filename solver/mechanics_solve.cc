// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/glue_traction.h"
#include "solver/mechanics.h"
#include "solver/step_failure.h"
#include "solver/timing_clock.h"

#include <algorithm>
#include <cmath>

// The linear equations of a step: the operator without assembling it, the assembled matrix for the
// factor, and conjugate gradients between the two.
namespace overbend::solver
{
namespace
{
// More iterations than this make a new factorisation pay.
constexpr unsigned refactor_above = 14;
constexpr unsigned iterations_limit = 200;

double dot(const std::vector<double> &a, const std::vector<double> &b)
{
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    sum += a[i] * b[i];
  return sum;
}
} // namespace

void Mechanics::apply_operator(const std::vector<double> &x, std::vector<double> &y) const
{
  std::fill(y.begin(), y.end(), 0.);
  add_stiffness_times(model.space, stiffness, x, y);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const double normal = model.glue_line[p.line].law->normal_stiffness();
    add_traction(p, p.along, glue_step[g].stiffness * jump_along(x, p, p.along), y);
    add_traction(p, p.across, glue_step[g].stiffness * jump_along(x, p, p.across), y);
    add_traction(p, p.normal, normal * jump_along(x, p, p.normal), y);
  }
  for (std::size_t s = 0; s < current_springs.size(); ++s)
    if (spring_closed[s]) {
      const Spring &spring = current_springs[s];
      add_times(spring.row, spring.stiffness * evaluate(spring.row, x), y);
    }
  for (std::size_t i = 0; i < y.size(); ++i)
    if (is_held[i])
      y[i] = 0;
}

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

void Mechanics::factorise()
{
  const double t0 = clock_seconds();
  std::fill(matrix.value.begin(), matrix.value.end(), 0.);
  add_cells_to_matrix();
  add_glue_to_matrix();
  add_springs_to_matrix();
  for (unsigned i = 0; i < matrix.size(); ++i)
    for (int k = matrix.row_start[i]; k < matrix.row_start[i + 1]; ++k) {
      const unsigned j = matrix.column[k];
      if (is_held[i] || is_held[j])
        matrix.value[k] = i == j ? 1e9 : 0.;
    }
  // Nothing may hold the tipping of the body: then it has no stiffness of its own.
  double &tip = matrix.at(model.tip_dof(), model.tip_dof());
  if (tip == 0)
    tip = 1;
  try {
    factor.factorise(matrix);
  } catch (const std::runtime_error &failure) {
    throw StepFailed(failure.what());
  }
  factor_is_stale = false;
  ++tally.factorisations;
  tally.seconds_factor += clock_seconds() - t0;
}

// Conjugate gradients for each right side, with the factor as preconditioner; the solutions replace
// the right sides. The vectors share the sweeps over the factor.
void Mechanics::iterate(std::vector<std::vector<double>> &right_sides, Solve kind)
{
  if (factor_is_stale)
    factorise();
  const double t0 = clock_seconds();
  const std::size_t m = right_sides.size(), n = model.n_unknowns();
  std::vector<std::vector<double>> x(m, std::vector<double>(n, 0.)), r = right_sides, z = r, p;
  factor.solve(z);
  p = z;
  std::vector<double> rz(m), limit(m);
  for (std::size_t k = 0; k < m; ++k) {
    rz[k] = dot(r[k], z[k]);
    if (kind == Solve::step)
      force_scale = std::max(force_scale, rz[k]);
    limit[k] = kind == Solve::step ? tolerance * tolerance * force_scale
                                   : unit_tolerance * unit_tolerance * rz[k];
  }
  std::vector<double> q(n);
  unsigned iteration = 0;
  const auto all_done = [&] {
    for (std::size_t k = 0; k < m; ++k)
      if (!(rz[k] <= limit[k]))
        return false;
    return true;
  };
  bool fresh = tally.solves == 0;
  while (!all_done()) {
    if (++iteration > iterations_limit)
      throw StepFailed("the equation solver does not converge in " +
                       std::to_string(iterations_limit) + " iterations; most is left " +
                       place_of_largest(model.space, r[0]));
    if (iteration % 40 == 0 && !fresh) {
      // The factor has grown too old: a new one, and start again from where we are.
      factorise();
      fresh = true;
      z = r;
      factor.solve(z);
      p = z;
      for (std::size_t k = 0; k < m; ++k)
        rz[k] = dot(r[k], z[k]);
    }
    for (std::size_t k = 0; k < m; ++k) {
      if (rz[k] <= limit[k])
        continue;
      apply_operator(p[k], q);
      const double curvature = dot(p[k], q);
      if (!(curvature > 0))
        throw StepFailed("the stiffness is not positive: something is free to move " +
                         place_of_largest(model.space, p[k]));
      const double step = rz[k] / curvature;
      for (std::size_t i = 0; i < n; ++i) {
        x[k][i] += step * p[k][i];
        r[k][i] -= step * q[i];
      }
    }
    z = r;
    factor.solve(z);
    for (std::size_t k = 0; k < m; ++k) {
      if (rz[k] <= limit[k])
        continue;
      const double next = dot(r[k], z[k]);
      const double ratio = next / rz[k];
      rz[k] = next;
      for (std::size_t i = 0; i < n; ++i)
        p[k][i] = z[k][i] + ratio * p[k][i];
    }
  }
  right_sides = std::move(x);
  if (iteration > refactor_above)
    factor_is_stale = true;
  tally.iterations += iteration;
  ++tally.solves;
  tally.seconds_solve += clock_seconds() - t0;
}
} // namespace overbend::solver
