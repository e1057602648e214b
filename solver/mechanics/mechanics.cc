// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/mechanics.h"

#include "solver/equations/parallel.h"
#include "solver/equations/timing_clock.h"
#include "solver/mechanics/glue_traction.h"
#include "solver/mechanics/step_failure.h"
#include "solver/model/wood_axes.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
// Creep elements may switch this often within a step; then they stay (their effect is small).
constexpr unsigned creep_rounds = 2;
// Fret slots may open and close for longer: a neck that is bent back opens all of them at once. A
// slot is as stiff open as closed at no stress, so one that is not sure does not matter below a
// stress (Pa) of a thousandth of what clamping makes.
constexpr unsigned slot_rounds = 8;
constexpr double unsure_slot = 1e4;
constexpr unsigned state_rounds = 30;
// Share of a residual (energy norm) that may be left while the states are still looked for.
constexpr double rough_share = 0.01;
} // namespace

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
    materials::add_times(state.wood[p], factor, other.wood[p]);
  for (std::size_t p = 0; p < state.glue.size(); ++p)
    materials::add_times(state.glue[p], factor, other.glue[p]);
}

Mechanics::Mechanics(const Model &the_model) : model(the_model)
{
  if (model.strips)
    for (const auto &frame : model.strips->frame)
      to_wood.push_back(strain_map(frame));
  else
    for (unsigned c = 0; c < model.space.n_cells; ++c)
      to_wood.push_back(strain_map(model.grain(c)));
  const std::size_t n = model.space.jxw.size();
  wood_step.resize(n);
  active.resize(n);
  slot_open.resize(model.slot_give.size());
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

void Mechanics::begin_wood(const StepClimate &climate, double dt)
{
  const Space &space = model.space;
  const bool moist = !climate.m0.empty();
  const std::vector<double> T0 = at_points(space, climate.T0), T1 = at_points(space, climate.T1);
  std::vector<double> m0, m1, driest, travel, dried;
  if (moist) {
    m0 = at_points(space, climate.m0);
    m1 = at_points(space, climate.m1);
    driest = at_points(space, climate.driest);
  }
  const bool swings = moist && !climate.travel.empty();
  if (swings) {
    travel = at_points(space, climate.travel);
    dried = at_points(space, climate.dried);
  }
  in_two_threads(space.n_cells, [&](std::size_t first, std::size_t last) {
    for (std::size_t c = first; c < last; ++c) {
      const double scatter = model.swelling_along.empty() ? 1 : model.swelling_along[c];
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        const unsigned wood = model.wood_at(unsigned(c), p);
        const PieceModel &piece = model.wood(wood);
        const double swelling = scatter * piece.swelling_along;
        const double time = climate.wood_time.empty() ? dt : dt * climate.wood_time[wood];
        const double way = swings ? travel[p] : 0, below = swings ? dried[p] : 0;
        wood_step[p] =
            moist ? piece.law->prepare({T0[p], m0[p], driest[p]},
                                       {T1[p], m1[p], driest[p], way, below}, time, swelling)
                  : piece.law->prepare(T0[p], T1[p], time, piece.moisture);
        active[p] = piece.law->active(start->wood[p], wood_step[p], start->wood[p].stress);
        if (!slot_open.empty())
          slot_open[p] = model.slot_give[p] > 0 && start->wood[p].stress[0] > 0;
      }
    }
  });
  set_law();
  judge_factor();
  ++tally.steps;
}

void Mechanics::begin(const MechanicsState &the_start, const std::vector<double> &T0,
                      const std::vector<double> &T1, double dt)
{
  begin(the_start, StepClimate{T0, T1, {}, {}, {}, {}, {}}, dt);
}

void Mechanics::begin(const MechanicsState &the_start, const StepClimate &climate, double dt)
{
  const double t0 = clock_seconds();
  start = &the_start;
  begin_wood(climate, dt);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &point = model.glue_point[g];
    const auto &law = *model.glue_line[point.line].law;
    const double time = climate.glue_time.empty() ? dt : dt * climate.glue_time[g];
    const double T0 = mean_of_sides(point, climate.T0), T1 = mean_of_sides(point, climate.T1);
    if (climate.m0.empty())
      glue_step[g] = law.prepare(T0, T1, time);
    else
      glue_step[g] = law.prepare(
          {T0, materials::glue_humidity(mean_of_sides(point, climate.m0), model.branch)},
          {T1, materials::glue_humidity(mean_of_sides(point, climate.m1), model.branch)}, time);
    glue_history[g] = law.history(start->glue[g], glue_step[g]);
  }
  tally.seconds_law += clock_seconds() - t0;
}

void Mechanics::begin_with_glue_at(const MechanicsState &the_start, const std::vector<double> &T,
                                   double dt, double glue_temperature)
{
  start = &the_start;
  begin_wood(StepClimate{T, T, {}, {}, {}, {}, {}}, dt);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const auto &law = *model.glue_line[model.glue_point[g].line].law;
    glue_step[g] = law.prepare(glue_temperature, glue_temperature, dt);
    glue_history[g] = law.history(start->glue[g], glue_step[g]);
  }
}

// Compliance of a point for the creep elements at work and the slot as it is. An open slot
// remembers nothing: its strain is that of the stress at the end of the step.
materials::Compliance Mechanics::tangent_at(unsigned cell, std::size_t p) const
{
  materials::Compliance s = law_at(cell, p).tangent(wood_step[p], active[p]);
  if (!slot_open.empty() && slot_open[p])
    s.normal[0] += model.slot_give[p] * wood_step[p].elastic1.normal[0];
  return s;
}

// Algorithmic stiffness and history of every point for the states at hand.
void Mechanics::set_law()
{
  in_two_threads(model.space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        const auto &law = law_at(unsigned(c), p);
        wood_stiffness[p] = inverse(tangent_at(unsigned(c), p));
        wood_history[p] = law.history(start->wood[p], wood_step[p], active[p]);
        stiffness[p] = to_model_axes(axes_at(unsigned(c), p), wood_stiffness[p]);
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
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        const StrainMap &map = axes_at(unsigned(c), p);
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
    add_traction(p, p.along,
                 glue_step[g].stiffness * jump_along(displacement, p, p.along) + glue_history[g][0],
                 force);
    add_traction(
        p, p.across,
        glue_step[g].stiffness * jump_along(displacement, p, p.across) + glue_history[g][1], force);
    add_traction(p, p.normal, law.normal_stiffness() * jump_along(displacement, p, p.normal),
                 force);
  }
  for (std::size_t s = 0; s < springs.size(); ++s)
    if (spring_closed[s])
      add_times(springs[s].row, springs[s].stiffness * elongation(springs[s], displacement), force);
  for (std::size_t i = 0; i < force.size(); ++i)
    force[i] = is_held[i] ? 0. : load[i] - force[i];
  return force;
}

// Looks which springs pull, which creep elements work and which slots are open; true if anything
// changed.
bool Mechanics::update_states(const std::vector<Spring> &springs,
                              const std::vector<double> &displacement, MayChange may)
{
  restless.clear();
  for (std::size_t s = 0; s < springs.size(); ++s) {
    const char closed = !springs[s].one_sided || elongation(springs[s], displacement) > 0;
    if (closed != spring_closed[s])
      restless.push_back(springs[s].name);
    spring_closed[s] = closed;
  }
  const bool points_changed = update_points(displacement, may);
  return points_changed || !restless.empty();
}

bool Mechanics::update_points(const std::vector<double> &displacement, MayChange may)
{
  may.slots = may.slots && !slot_open.empty();
  if (!may.creep && !may.slots)
    return false;
  const std::vector<Voigt> strain = strains(model.space, displacement);
  std::vector<char> cell_changed(model.space.n_cells, 0);
  in_two_threads(model.space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        materials::Vector6 elastic = to_wood_axes(axes_at(unsigned(c), p), strain[p]);
        for (unsigned i = 0; i < 6; ++i)
          elastic[i] -= wood_history[p][i];
        const materials::Vector6 stress = wood_stiffness[p] * elastic;
        if (may.creep) {
          const auto now_active =
              law_at(unsigned(c), p).active(start->wood[p], wood_step[p], stress);
          cell_changed[c] = cell_changed[c] || now_active != active[p];
          active[p] = now_active;
        }
        if (may.slots && model.slot_give[p] > 0 && std::abs(stress[0]) > unsure_slot) {
          cell_changed[c] = cell_changed[c] || (stress[0] > 0) != bool(slot_open[p]);
          slot_open[p] = stress[0] > 0;
        }
      }
    }
  });
  const bool changed = std::find(cell_changed.begin(), cell_changed.end(), 1) != cell_changed.end();
  if (changed)
    set_law();
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

  // Which springs and creep elements are at work shows long before the digits are all there: a
  // rough solution first, and the fine one once the states stay or may not change any more.
  bool rough = true;
  for (unsigned round = 0; round < state_rounds; ++round) {
    std::vector<std::vector<double>> increment{residual(springs, load, displacement)};
    iterate(increment, [&](std::size_t, double energy) {
      force_scale = std::max(force_scale, energy);
      const double fine = tolerance * tolerance * force_scale;
      return rough ? std::max(fine, rough_share * rough_share * energy) : fine;
    });
    for (std::size_t i = 0; i < displacement.size(); ++i)
      displacement[i] += increment[0][i];
    if (!std::all_of(displacement.begin(), displacement.end(),
                     [](double v) { return std::isfinite(v); }))
      throw StepFailed("the displacement is not a finite number, first " +
                       place_of_largest(model.space, displacement));
    const bool changed =
        update_states(springs, displacement, {round < creep_rounds, round < slot_rounds});
    if (!changed && !rough)
      return;
    rough = rough && changed && round + 1 < creep_rounds;
  }
  throw StepFailed("these open and close in turn and do not come to rest in " +
                   std::to_string(state_rounds) + " rounds: " + counted(restless));
}

void Mechanics::respond(std::vector<std::vector<double>> &loads,
                        const std::vector<std::vector<double>> &guesses)
{
  std::vector<double> energy_of_guess(loads.size(), 0.);
  std::vector<double> force(guesses.empty() ? 0 : model.n_unknowns());
  for (std::size_t k = 0; k < loads.size(); ++k) {
    auto &load = loads[k];
    for (std::size_t i = 0; i < load.size(); ++i)
      if (is_held[i])
        load[i] = 0;
    if (guesses.empty())
      continue;
    for (std::size_t i = 0; i < load.size(); ++i)
      energy_of_guess[k] += guesses[k][i] * load[i];
    apply_operator(guesses[k], force);
    for (std::size_t i = 0; i < load.size(); ++i)
      load[i] -= force[i];
  }
  iterate(loads, [&](std::size_t k, double energy) {
    return unit_tolerance * unit_tolerance * std::max(energy, energy_of_guess[k]);
  });
  for (std::size_t k = 0; k < guesses.size(); ++k)
    for (std::size_t i = 0; i < loads[k].size(); ++i)
      loads[k][i] += guesses[k][i];
}

std::vector<double> Mechanics::unit_load(const MechanicsState &unit) const
{
  const Space &space = model.space;
  std::vector<Voigt> stress(space.jxw.size());
  in_two_threads(space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        auto history = law_at(unsigned(c), p).history(unit.wood[p], wood_step[p], active[p]);
        for (unsigned i = 0; i < 6; ++i)
          history[i] -= wood_step[p].free_strain1[i];
        stress[p] = to_model_axes(axes_at(unsigned(c), p), wood_stiffness[p] * history);
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
  const double t0 = clock_seconds();
  const Space &space = model.space;
  const std::vector<Voigt> strain = strains(space, displacement);
  in_two_threads(space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        const auto &law = law_at(unsigned(c), p);
        const auto history = law.history(state.wood[p], wood_step[p], active[p]);
        materials::Vector6 elastic = to_wood_axes(axes_at(unsigned(c), p), strain[p]);
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
        {jump_along(displacement, p, p.along), jump_along(displacement, p, p.across)});
  }
  state.displacement = displacement;
  tally.seconds_law += clock_seconds() - t0;
}

} // namespace overbend::solver
