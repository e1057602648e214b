// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/timing_clock.h"
#include "solver/mechanics/glue_traction.h"
#include "solver/mechanics/mechanics.h"
#include "solver/mechanics/step_failure.h"

#include <algorithm>
#include <cmath>

// The linear equations of a step: the operator without assembling it, the factor of an assembled
// matrix that may be some steps old, and conjugate gradients between the two.
namespace overbend::solver
{
namespace
{
// What a factorisation counts for, in iterations (measured on 14,000 unknowns, two cores)
constexpr double factorisation_in_iterations = 12;
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

void Mechanics::factorise()
{
  const double t0 = clock_seconds();
  std::fill(matrix.value.begin(), matrix.value.end(), 0.);
  add_cells_to_matrix();
  add_glue_to_matrix();
  add_springs_to_matrix();
  for (unsigned i = 0; i < matrix.size() && !held.empty(); ++i)
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
  factor_wear = {};
  ++tally.factorisations;
  tally.seconds_factor += clock_seconds() - t0;
}

// Marks the factor as stale once it is dearer to keep than to make anew; called at each new step.
// A factor is renewed when the last step cost more than the steps since it was made did on average,
// the making counted in: the rule for whatever wears and is replaced.
void Mechanics::judge_factor()
{
  FactorWear &wear = factor_wear;
  if (factor_is_stale || wear.iterations_of_step == 0)
    return;
  wear.least = std::min(wear.least, wear.iterations_of_step);
  wear.spent += wear.iterations_of_step - wear.least;
  ++wear.steps;
  if ((wear.iterations_of_step - wear.least) * wear.steps >
      factorisation_in_iterations + wear.spent)
    factor_is_stale = true;
  wear.iterations_of_step = 0;
}

Mechanics::Search Mechanics::begin_search(std::vector<std::vector<double>> residuals)
{
  if (factor_is_stale)
    factorise();
  const double t0 = clock_seconds();
  Search search;
  search.r = std::move(residuals);
  search.x.assign(search.r.size(), std::vector<double>(model.n_unknowns(), 0.));
  search.energy.resize(search.r.size());
  search.fresh = tally.solves == 0;
  precondition(search);
  ++tally.solves;
  tally.seconds_solve += clock_seconds() - t0;
  return search;
}

// Begins anew from what is left of the residuals.
void Mechanics::precondition(Search &search) const
{
  search.p = search.r;
  factor.precondition(search.p);
  for (std::size_t k = 0; k < search.r.size(); ++k)
    search.energy[k] = dot(search.r[k], search.p[k]);
}

// Conjugate gradients for each residual, with the factor as preconditioner, until the energy of
// what is left is below its limit. The vectors share the sweeps over the factor.
void Mechanics::go_on(Search &search, const std::vector<double> &limit)
{
  const double t0 = clock_seconds();
  const auto all_done = [&] {
    for (std::size_t k = 0; k < limit.size(); ++k)
      if (!(search.energy[k] <= limit[k]))
        return false;
    return true;
  };
  while (!all_done()) {
    if (++search.iterations > iterations_limit)
      throw StepFailed("the equation solver does not converge in " +
                       std::to_string(iterations_limit) + " iterations; most is left " +
                       place_of_largest(model.space, search.r[0]));
    ++factor_wear.iterations_of_step;
    ++tally.iterations;
    if (search.iterations % 40 == 0 && !search.fresh) {
      // The factor has grown too old: a new one, and start again from where we are.
      factorise();
      search.fresh = true;
      precondition(search);
    }
    iterate_once(search, limit);
  }
  tally.seconds_solve += clock_seconds() - t0;
}

void Mechanics::iterate_once(Search &search, const std::vector<double> &limit)
{
  const std::size_t n = model.n_unknowns();
  applied.resize(n);
  for (std::size_t k = 0; k < limit.size(); ++k) {
    if (search.energy[k] <= limit[k])
      continue;
    std::vector<double> &x = search.x[k], &r = search.r[k], &p = search.p[k];
    apply_operator(p, applied);
    const double curvature = dot(p, applied);
    if (!(curvature > 0))
      throw StepFailed("the stiffness is not positive: something is free to move " +
                       place_of_largest(model.space, p));
    const double step = search.energy[k] / curvature;
    for (std::size_t i = 0; i < n; ++i) {
      x[i] += step * p[i];
      r[i] -= step * applied[i];
    }
  }
  better = search.r;
  factor.precondition(better);
  for (std::size_t k = 0; k < limit.size(); ++k) {
    if (search.energy[k] <= limit[k])
      continue;
    const double next = dot(search.r[k], better[k]), ratio = next / search.energy[k];
    search.energy[k] = next;
    for (std::size_t i = 0; i < n; ++i)
      search.p[k][i] = better[k][i] + ratio * search.p[k][i];
  }
}
} // namespace overbend::solver
