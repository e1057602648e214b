// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics.h"

#include "solver/parallel.h"
#include "solver/wood_axes.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace overbend::solver
{
namespace
{
// Creep elements may switch this often within a step; then they stay (their effect is small).
constexpr unsigned creep_rounds = 2;
constexpr unsigned state_rounds = 30;
// More iterations than this make a new factorisation pay.
constexpr unsigned refactor_above = 14;
constexpr unsigned iterations_limit = 200;

double now()
{
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

double dot(const std::vector<double> &a, const std::vector<double> &b)
{
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    sum += a[i] * b[i];
  return sum;
}

double along(const std::vector<double> &u, const GluePoint &p, const Vec3 &direction)
{
  double slip = 0;
  for (unsigned i = 0; i < 3; ++i)
    slip += direction[i] * (u[3 * p.upper + i] - (p.lower < 0 ? 0. : u[3 * p.lower + i]));
  return slip;
}

void add_traction(const GluePoint &p, const Vec3 &direction, double traction,
                  std::vector<double> &force)
{
  for (unsigned i = 0; i < 3; ++i) {
    force[3 * p.upper + i] += p.weight * traction * direction[i];
    if (p.lower >= 0)
      force[3 * p.lower + i] -= p.weight * traction * direction[i];
  }
}
}  // namespace

MechanicsState unstressed(const Model &model)
{
  MechanicsState state;
  state.displacement.assign(model.n_unknowns(), 0.);
  state.wood.resize(model.space.jxw.size());
  state.glue.resize(model.glue_point.size());
  return state;
}

void add_times(MechanicsState &state, double factor, const MechanicsState &other)
{
  for (std::size_t i = 0; i < state.displacement.size(); ++i)
    state.displacement[i] += factor * other.displacement[i];
  for (std::size_t p = 0; p < state.wood.size(); ++p)
    for (unsigned i = 0; i < 6; ++i) {
      state.wood[p].stress[i] += factor * other.wood[p].stress[i];
      for (unsigned e = 0; e < materials::max_elements; ++e) {
        state.wood[p].kelvin[e][i] += factor * other.wood[p].kelvin[e][i];
        state.wood[p].irrecoverable[e][i] += factor * other.wood[p].irrecoverable[e][i];
      }
    }
  for (std::size_t p = 0; p < state.glue.size(); ++p)
    for (unsigned i = 0; i < 2; ++i) {
      state.glue[p].slip[i] += factor * other.glue[p].slip[i];
      for (unsigned b = 0; b < materials::max_branches; ++b)
        state.glue[p].branch[b][i] += factor * other.glue[p].branch[b][i];
    }
}

Mechanics::Mechanics(const Model &the_model) : model(the_model)
{
  for (unsigned i = 0; i < model.piece.size(); ++i)
    to_wood[i] = strain_map(model.piece[i].grain);
  const std::size_t n = model.space.jxw.size();
  wood_step.resize(n);
  active.resize(n);
  wood_stiffness.resize(n);
  wood_history.resize(n);
  stiffness.resize(n);
  glue_step.resize(model.glue_point.size());
  glue_history.resize(model.glue_point.size());
  is_held.assign(model.n_unknowns(), 0);
}

void Mechanics::hold(const std::vector<std::pair<unsigned, double>> &unknowns)
{
  held = unknowns;
  is_held.assign(model.n_unknowns(), 0);
  for (const auto &[index, value] : held)
    is_held[index] = 1;
  factor_is_stale = true;
}

void Mechanics::begin_wood(const std::vector<double> &T0, const std::vector<double> &T1, double dt)
{
  const std::vector<double> p0 = at_points(model.space, T0), p1 = at_points(model.space, T1);
  in_two_threads(model.space.n_cells, [&](std::size_t first, std::size_t last) {
    for (std::size_t c = first; c < last; ++c) {
      const PieceModel &piece = model.piece[model.space.piece[c]];
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        wood_step[p] = piece.law->prepare(p0[p], p1[p], dt, piece.moisture);
        active[p] = piece.law->active(start->wood[p], wood_step[p], start->wood[p].stress);
      }
    }
  });
  set_law();
  ++tally.steps;
}

void Mechanics::begin(const MechanicsState &the_start, const std::vector<double> &T0,
                      const std::vector<double> &T1, double dt)
{
  const double t0 = now();
  start = &the_start;
  begin_wood(T0, T1, dt);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &point = model.glue_point[g];
    const unsigned lower = point.lower < 0 ? point.upper : point.lower;
    const auto &law = *model.glue_line[point.line].law;
    glue_step[g] =
        law.prepare((T0[point.upper] + T0[lower]) / 2, (T1[point.upper] + T1[lower]) / 2, dt);
    glue_history[g] = law.history(start->glue[g], glue_step[g]);
  }
  tally.seconds_law += now() - t0;
}

void Mechanics::begin_with_glue_at(const MechanicsState &the_start, const std::vector<double> &T,
                                   double dt, double glue_temperature)
{
  start = &the_start;
  begin_wood(T, T, dt);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const auto &law = *model.glue_line[model.glue_point[g].line].law;
    glue_step[g] = law.prepare(glue_temperature, glue_temperature, dt);
    glue_history[g] = law.history(start->glue[g], glue_step[g]);
  }
}

// Algorithmic stiffness and history of every point for the creep elements at work.
void Mechanics::set_law()
{
  in_two_threads(model.space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      const unsigned kind = model.space.piece[c];
      const auto &law = *model.piece[kind].law;
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        wood_stiffness[p] = inverse(law.tangent(wood_step[p], active[p]));
        wood_history[p] = law.history(start->wood[p], wood_step[p], active[p]);
        stiffness[p] = to_model_axes(to_wood[kind], wood_stiffness[p]);
      }
    }
  });
}

std::vector<double> Mechanics::residual(const std::vector<Spring> &springs,
                                        const std::vector<double> &load,
                                        const std::vector<double> &displacement) const
{
  const Space &space = model.space;
  std::vector<Voigt> stress = strains(space, displacement);
  in_two_threads(space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      const StrainMap &map = to_wood[space.piece[c]];
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        materials::Vector6 elastic = to_wood_axes(map, stress[p]);
        for (unsigned i = 0; i < 6; ++i)
          elastic[i] -= wood_history[p][i];
        stress[p] = to_model_axes(map, wood_stiffness[p] * elastic);
      }
    }
  });
  std::vector<double> force(model.n_unknowns(), 0.);
  add_internal_force(space, stress, force);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const auto &law = *model.glue_line[p.line].law;
    add_traction(p, p.along, glue_step[g].stiffness * along(displacement, p, p.along) + glue_history[g][0], force);
    add_traction(p, p.across, glue_step[g].stiffness * along(displacement, p, p.across) + glue_history[g][1], force);
    add_traction(p, p.normal, law.normal_stiffness() * along(displacement, p, p.normal), force);
  }
  for (std::size_t s = 0; s < springs.size(); ++s)
    if (spring_closed[s])
      add_times(springs[s].row, springs[s].stiffness * elongation(springs[s], displacement), force);
  for (std::size_t i = 0; i < force.size(); ++i)
    force[i] = is_held[i] ? 0. : load[i] - force[i];
  return force;
}

void Mechanics::apply_operator(const std::vector<double> &x, std::vector<double> &y) const
{
  std::fill(y.begin(), y.end(), 0.);
  add_stiffness_times(model.space, stiffness, x, y);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const double normal = model.glue_line[p.line].law->normal_stiffness();
    add_traction(p, p.along, glue_step[g].stiffness * along(x, p, p.along), y);
    add_traction(p, p.across, glue_step[g].stiffness * along(x, p, p.across), y);
    add_traction(p, p.normal, normal * along(x, p, p.normal), y);
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

// Looks which springs pull and which creep elements work; true if anything changed.
bool Mechanics::update_states(const std::vector<Spring> &springs,
                              const std::vector<double> &displacement, bool creep_may_change)
{
  bool changed = false;
  for (std::size_t s = 0; s < springs.size(); ++s) {
    const char closed = !springs[s].one_sided || elongation(springs[s], displacement) > 0;
    changed = changed || closed != spring_closed[s];
    spring_closed[s] = closed;
  }
  if (!creep_may_change)
    return changed;
  const std::vector<Voigt> strain = strains(model.space, displacement);
  std::vector<char> creep_changed(model.space.n_cells, 0);
  in_two_threads(model.space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      const unsigned kind = model.space.piece[c];
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        materials::Vector6 elastic = to_wood_axes(to_wood[kind], strain[p]);
        for (unsigned i = 0; i < 6; ++i)
          elastic[i] -= wood_history[p][i];
        const auto now_active = model.piece[kind].law->active(start->wood[p], wood_step[p],
                                                              wood_stiffness[p] * elastic);
        creep_changed[c] = creep_changed[c] || now_active != active[p];
        active[p] = now_active;
      }
    }
  });
  if (std::find(creep_changed.begin(), creep_changed.end(), 1) != creep_changed.end()) {
    set_law();
    changed = true;
  }
  return changed;
}

void Mechanics::equilibrate(const std::vector<Spring> &springs, const std::vector<double> &load,
                            std::vector<double> &displacement)
{
  current_springs = springs;
  make_pattern(springs);
  if (spring_closed.size() != springs.size())
    spring_closed.assign(springs.size(), 0);
  for (std::size_t s = 0; s < springs.size(); ++s)
    spring_closed[s] = !springs[s].one_sided || elongation(springs[s], displacement) > 0;
  for (const auto &[index, value] : held)
    displacement[index] = value;

  for (unsigned round = 0; round < state_rounds; ++round) {
    std::vector<std::vector<double>> increment{residual(springs, load, displacement)};
    iterate(increment, Solve::step);
    for (std::size_t i = 0; i < displacement.size(); ++i)
      displacement[i] += increment[0][i];
    if (!std::all_of(displacement.begin(), displacement.end(), [](double v) { return std::isfinite(v); }))
      throw StepFailed("the displacement is not a finite number");
    if (!update_states(springs, displacement, round < creep_rounds))
      return;
  }
  throw StepFailed("contacts and cords do not come to rest");
}

void Mechanics::respond(std::vector<std::vector<double>> &loads)
{
  for (auto &load : loads)
    for (std::size_t i = 0; i < load.size(); ++i)
      if (is_held[i])
        load[i] = 0;
  iterate(loads, Solve::response);
}

std::vector<double> Mechanics::unit_load(const MechanicsState &unit) const
{
  const Space &space = model.space;
  std::vector<Voigt> stress(space.jxw.size());
  in_two_threads(space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      const unsigned kind = space.piece[c];
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        auto history = model.piece[kind].law->history(unit.wood[p], wood_step[p], active[p]);
        for (unsigned i = 0; i < 6; ++i)
          history[i] -= wood_step[p].free_strain1[i];
        stress[p] = to_model_axes(to_wood[kind], wood_stiffness[p] * history);
      }
    }
  });
  std::vector<double> load(model.n_unknowns(), 0.);
  add_internal_force(space, stress, load);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const auto history = model.glue_line[p.line].law->history(unit.glue[g], glue_step[g]);
    add_traction(p, p.along, -history[0], load);
    add_traction(p, p.across, -history[1], load);
  }
  return load;
}

void Mechanics::finish(MechanicsState &state, const std::vector<double> &displacement, bool is_unit)
{
  const double t0 = now();
  const Space &space = model.space;
  const std::vector<Voigt> strain = strains(space, displacement);
  in_two_threads(space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      const unsigned kind = space.piece[c];
      const auto &law = *model.piece[kind].law;
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        const auto history = law.history(state.wood[p], wood_step[p], active[p]);
        materials::Vector6 elastic = to_wood_axes(to_wood[kind], strain[p]);
        for (unsigned i = 0; i < 6; ++i)
          elastic[i] -= history[i] - (is_unit ? wood_step[p].free_strain1[i] : 0.);
        law.finish(state.wood[p], wood_step[p], active[p], wood_stiffness[p] * elastic);
      }
    }
  });
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    model.glue_line[p.line].law->finish(
        state.glue[g], glue_step[g],
        {along(displacement, p, p.along), along(displacement, p, p.across)});
  }
  state.displacement = displacement;
  tally.seconds_law += now() - t0;
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
  if (matrix.row_start.size() > 1 && std::all_of(springs.begin(), springs.end(), [&](const Spring &s) {
        return !s.in_factor || fits(s);
      }))
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
      pattern.add_group({3 * p.upper, 3 * p.upper + 1, 3 * p.upper + 2, 3 * l, 3 * l + 1, 3 * l + 2});
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

void Mechanics::factorise()
{
  const double t0 = now();
  const Space &space = model.space;
  std::fill(matrix.value.begin(), matrix.value.end(), 0.);
  ElementMatrix element;
  for (unsigned c = 0; c < space.n_cells; ++c) {
    element_matrix(space, stiffness, c, element);
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      for (unsigned b = 0; b < nodes_per_cell; ++b) {
        const unsigned row = 3 * space.cell_node[c][a], column = 3 * space.cell_node[c][b];
        for (unsigned i = 0; i < 3; ++i) {
          double *entry = &matrix.at(row + i, column);  // the three components are neighbours
          for (unsigned j = 0; j < 3; ++j)
            entry[j] += element[(3 * a + i) * 81 + 3 * b + j];
        }
      }
  }
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const double normal = model.glue_line[p.line].law->normal_stiffness();
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j) {
        const double k = p.weight * (glue_step[g].stiffness * (p.along[i] * p.along[j] + p.across[i] * p.across[j]) +
                                     normal * p.normal[i] * p.normal[j]);
        matrix.at(3 * p.upper + i, 3 * p.upper + j) += k;
        if (p.lower >= 0) {
          const unsigned l = p.lower;
          matrix.at(3 * l + i, 3 * l + j) += k;
          matrix.at(3 * p.upper + i, 3 * l + j) -= k;
          matrix.at(3 * l + i, 3 * p.upper + j) -= k;
        }
      }
  }
  for (std::size_t s = 0; s < current_springs.size(); ++s) {
    const Spring &spring = current_springs[s];
    if (spring_closed[s] && spring.in_factor)
      for (const auto &[i, a] : spring.row)
        for (const auto &[j, b] : spring.row)
          matrix.at(i, j) += spring.stiffness * a * b;
  }
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
  tally.seconds_factor += now() - t0;
}

// Conjugate gradients for each right side, with the factor as preconditioner; the solutions replace
// the right sides. The vectors share the sweeps over the factor.
void Mechanics::iterate(std::vector<std::vector<double>> &right_sides, Solve kind)
{
  if (factor_is_stale)
    factorise();
  const double t0 = now();
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
      throw StepFailed("the equation solver does not converge");
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
        throw StepFailed("the stiffness is not positive: something is free to move");
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
  tally.seconds_solve += now() - t0;
}
}  // namespace overbend::solver
