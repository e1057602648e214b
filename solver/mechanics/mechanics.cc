// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/mechanics.h"

#include "solver/equations/parallel.h"
#include "solver/equations/timing_clock.h"
#include "solver/mechanics/glue_traction.h"
#include "solver/model/wood_axes.h"

namespace overbend::solver
{
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
    for (std::size_t c = begin; c < end; ++c)
      for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p)
        set_law_at(unsigned(c), p);
  });
}

void Mechanics::set_law_at(unsigned cell, std::size_t p)
{
  wood_stiffness[p] = inverse(tangent_at(cell, p));
  wood_history[p] = law_at(cell, p).history(start->wood[p], wood_step[p], active[p]);
  stiffness[p] = to_model_axes(axes_at(cell, p), wood_stiffness[p]);
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
