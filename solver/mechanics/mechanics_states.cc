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
    for (unsigned i = 0; i < 6; ++i) {
      state.wood[p].stress[i] += factor * other.wood[p].stress[i];
      for (unsigned e = 0; e < materials::max_elements; ++e) {
        state.wood[p].kelvin[e][i] += factor * other.wood[p].kelvin[e][i];
        state.wood[p].irrecoverable[e][i] += factor * other.wood[p].irrecoverable[e][i];
      }
      for (unsigned e = 0; e < materials::max_sorptive; ++e)
        state.wood[p].sorptive[e][i] += factor * other.wood[p].sorptive[e][i];
      state.wood[p].drying_set[i] += factor * other.wood[p].drying_set[i];
    }
  for (std::size_t p = 0; p < state.glue.size(); ++p)
    for (unsigned i = 0; i < 2; ++i) {
      state.glue[p].slip[i] += factor * other.glue[p].slip[i];
      for (unsigned b = 0; b < materials::max_branches; ++b)
        state.glue[p].branch[b][i] += factor * other.glue[p].branch[b][i];
    }
}

bool Mechanics::update_states(const std::vector<Spring> &springs,
                              const std::vector<double> &displacement, bool creep_may_change)
{
  restless.clear();
  for (std::size_t s = 0; s < springs.size(); ++s) {
    const char closed = !springs[s].one_sided || elongation(springs[s], displacement) > 0;
    if (closed != spring_closed[s])
      restless.push_back(springs[s].name);
    spring_closed[s] = closed;
  }
  const bool changed = !restless.empty();
  if (!creep_may_change)
    return changed;
  const std::vector<Voigt> strain = strains(model.space, displacement);
  std::vector<char> creep_changed(model.space.n_cells, 0);
  in_two_threads(model.space.n_cells, [&](std::size_t begin, std::size_t end) {
    for (std::size_t c = begin; c < end; ++c) {
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
        materials::Vector6 elastic = to_wood_axes(axes_at(unsigned(c), p), strain[p]);
        for (unsigned i = 0; i < 6; ++i)
          elastic[i] -= wood_history[p][i];
        const auto now_active =
            law_at(unsigned(c), p)
                .active(start->wood[p], wood_step[p], wood_stiffness[p] * elastic);
        if (now_active == active[p])
          continue;
        creep_changed[c] = 1;
        active[p] = now_active;
        set_law_at(unsigned(c), p);
      }
    }
  });
  return changed || std::find(creep_changed.begin(), creep_changed.end(), 1) != creep_changed.end();
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
  // rough solution first. If the states stay, or may not change any more, the search for it goes on
  // to the fine one.
  unsigned looks = 0;
  for (unsigned round = 0; round < state_rounds; ++round) {
    Search search = begin_search({residual(springs, load, displacement)});
    force_scale = std::max(force_scale, search.energy[0]);
    const double fine = tolerance * tolerance * force_scale,
                 rough = rough_share * rough_share * search.energy[0];
    std::vector<double> u;
    bool changed = false;
    if (looks < creep_rounds) {
      go_on(search, {std::max(fine, rough)});
      u = moved_by(displacement, search.x[0]);
      changed = update_states(springs, u, looks++ < creep_rounds);
    }
    if (!changed) {
      go_on(search, {fine});
      u = moved_by(displacement, search.x[0]);
      changed = update_states(springs, u, looks++ < creep_rounds);
    }
    displacement = std::move(u);
    if (!changed)
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
