// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/parallel.h"
#include "solver/mechanics/mechanics.h"
#include "solver/mechanics/step_failure.h"
#include "solver/model/wood_axes.h"

#include <algorithm>
#include <cmath>

// States: what a point keeps from step to step; which springs pull and which creep elements work at
// the end of a step, and the solutions for it.
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
    for (std::size_t c = begin; c < end; ++c)
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        materials::Vector6 elastic = to_wood_axes(axes_at(unsigned(c), p), strain[p]);
        for (unsigned i = 0; i < 6; ++i)
          elastic[i] -= wood_history[p][i];
        if (update_point(unsigned(c), p, wood_stiffness[p] * elastic, may))
          cell_changed[c] = 1;
      }
  });
  return std::find(cell_changed.begin(), cell_changed.end(), 1) != cell_changed.end();
}

bool Mechanics::update_point(unsigned cell, std::size_t p, const materials::Vector6 &stress,
                             MayChange may)
{
  bool changed = false;
  if (may.creep) {
    const auto now_active = law_at(cell, p).active(start->wood[p], wood_step[p], stress);
    changed = now_active != active[p];
    active[p] = now_active;
  }
  if (may.slots && model.slot_give[p] > 0 && std::abs(stress[0]) > unsure_slot) {
    changed = changed || (stress[0] > 0) != bool(slot_open[p]);
    slot_open[p] = stress[0] > 0;
  }
  if (changed)
    set_law_at(cell, p);
  return changed;
}

std::vector<double> Mechanics::moved_by(const std::vector<double> &from,
                                        const std::vector<double> &change) const
{
  std::vector<double> u = from;
  double sum = 0;
  for (std::size_t i = 0; i < u.size(); ++i) {
    u[i] += change[i];
    sum += u[i];
  }
  if (!std::isfinite(sum))
    throw StepFailed("the displacement is not a finite number, first " +
                     place_of_largest(model.space, u));
  return u;
}

// What is on the bench, and its states in the first guess.
void Mechanics::take(const std::vector<Spring> &springs, std::vector<double> &displacement)
{
  current_springs = springs;
  make_pattern(springs);
  if (spring_closed.size() != springs.size())
    spring_closed.assign(springs.size(), 0);
  for (std::size_t s = 0; s < springs.size(); ++s)
    spring_closed[s] = !springs[s].one_sided || elongation(springs[s], displacement) > 0;
  for (const auto &[index, value] : held)
    displacement[index] = value;
}

void Mechanics::equilibrate(const std::vector<Spring> &springs, const std::vector<double> &load,
                            std::vector<double> &displacement)
{
  take(springs, displacement);
  // States are looked for on solutions with all digits: what a rough one decides is not the same on
  // both sides of a symmetric neck (1e-5 of the bow), and saves three hundredths of a plan.
  for (unsigned round = 0; round < state_rounds; ++round) {
    Search search = begin_search({residual(springs, load, displacement)});
    force_scale = std::max(force_scale, search.energy[0]);
    go_on(search, {tolerance * tolerance * force_scale});
    displacement = moved_by(displacement, search.x[0]);
    if (!update_states(springs, displacement, {round < creep_rounds, round < slot_rounds}))
      return;
  }
  throw StepFailed("these open and close in turn and do not come to rest in " +
                   std::to_string(state_rounds) + " rounds: " + counted(restless));
}

void Mechanics::respond(std::vector<std::vector<double>> &loads,
                        const std::vector<std::vector<double>> &guesses)
{
  std::vector<double> energy_of_guess(loads.size(), 0.);
  applied.resize(model.n_unknowns());
  for (std::size_t k = 0; k < loads.size(); ++k) {
    auto &load = loads[k];
    for (std::size_t i = 0; i < load.size(); ++i)
      if (is_held[i])
        load[i] = 0;
    if (guesses.empty())
      continue;
    for (std::size_t i = 0; i < load.size(); ++i)
      energy_of_guess[k] += guesses[k][i] * load[i];
    apply_operator(guesses[k], applied);
    for (std::size_t i = 0; i < load.size(); ++i)
      load[i] -= applied[i];
  }
  Search search = begin_search(std::move(loads));
  std::vector<double> limit;
  for (std::size_t k = 0; k < energy_of_guess.size(); ++k)
    limit.push_back(unit_tolerance * unit_tolerance *
                    std::max(search.energy[k], energy_of_guess[k]));
  go_on(search, limit);
  loads = std::move(search.x);
  for (std::size_t k = 0; k < guesses.size(); ++k)
    for (std::size_t i = 0; i < loads[k].size(); ++i)
      loads[k][i] += guesses[k][i];
}
} // namespace overbend::solver
