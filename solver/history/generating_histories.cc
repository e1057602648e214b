// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/generating_histories.h"

#include "solver/model/interfaces.h"

#include <algorithm>
#include <utility>

namespace overbend::solver
{
namespace
{
constexpr double room = 293.15; // K, of the generating histories
// Glue that flows within seconds, and glue that does not move in decades, whatever the kind: far
// above the softening temperature and far below it, K.
constexpr double soft_above = 300, frozen_at = 200;
// s: hundreds of times what a neck takes there to slide to rest, also on a slow line (viscosity
// over the modulus at which it would hold half: 5 ms there), and so short that the wood stays
// elastic.
constexpr double soft_time = 1;
constexpr double first_creep_step = 3600, creep_step_growth = 3; // s

// Steps that grow from an hour on until a time is over.
template <typename Step>
void in_growing_steps(double duration, const Step &step)
{
  double time = 0;
  for (double dt = first_creep_step; time < duration; dt *= creep_step_growth) {
    dt = std::min(dt, duration - time);
    step(dt);
    time += dt;
  }
}

BenchSetup setup_of(const Cause &cause)
{
  BenchSetup setup;
  setup.strings = cause.strings;
  setup.rod = cause.rod;
  setup.rod_pulls_evenly = cause.rod_pulls_evenly;
  setup.rod_is_dead_load = cause.rod_pulls_evenly || cause.rod == cases::RodState::set;
  setup.cords = setup.cradle = cause.take_up != 0;
  setup.nut = cause.nut;
  return setup;
}

BenchOffsets offsets_of(const Cause &cause)
{
  BenchOffsets offsets;
  offsets.take_up = {cause.take_up, cause.take_up};
  return offsets;
}
} // namespace

Cause seized_rod(const cases::Case &the_case)
{
  Cause cause;
  if (the_case.neck.rod.state == cases::RodState::seized) {
    cause.rod = cases::RodState::seized;
    cause.rod_pulls_evenly = true;
  }
  return cause;
}

Cause torque(const Model &model)
{
  std::vector<unsigned> nodes;
  for (const FaceNode &n : face_nodes(model.space, unsigned(mesh::Face::headstock_face)))
    nodes.push_back(n.node);
  Cause cause;
  cause.load.assign(model.n_unknowns(), 0.);
  add_times(spread_moment(model.space, nodes, {1, 0, 0}), 1., cause.load);
  return cause;
}

Generator::Generator(const NeckOnBench &neck, Cause stays_)
    : model(neck.model), bench(neck.bench), lines(neck.lines), mechanics(neck.mechanics),
      stays(std::move(stays_)), room_temperature(neck.model.space.n_nodes, room)
{}

MechanicsState Generator::slip(const Cause &cause)
{
  MechanicsState state = unstressed(model);
  step(state, cause, soft_time, hottest_softening() + soft_above);
  loaded_reading = read(lines, state.displacement);
  loaded_pull = pull_of(cause, state);
  step(state, {}, 0, room);
  return state;
}

MechanicsState Generator::creep(const Cause &cause, double time)
{
  MechanicsState state = unstressed(model);
  step(state, cause, 0, frozen_at);
  in_growing_steps(time, [&](double dt) { step(state, cause, dt, frozen_at); });
  step(state, {}, 0, frozen_at);
  return state;
}

void Generator::rest(MechanicsState &state, double duration, const Cause &in_it)
{
  const bool loaded = in_it.rod_pulls_evenly;
  if (loaded)
    step(state, in_it, 0, frozen_at);
  in_growing_steps(duration, [&](double dt) { step(state, in_it, dt, frozen_at); });
  if (loaded)
    step(state, {}, 0, frozen_at);
}

MechanicsState Generator::swollen(const std::vector<double> &moisture)
{
  MechanicsState state = unstressed(model);
  at_once(state,
          StepClimate{room_temperature, room_temperature, moisture, moisture, moisture, {}, {}});
  return state;
}

void Generator::bring_to(MechanicsState &state, const std::vector<double> &from,
                         const std::vector<double> &to)
{
  at_once(state, StepClimate{room_temperature, room_temperature, from, to, from, {}, {}});
}

void Generator::at_once(MechanicsState &state, const StepClimate &climate)
{
  const MechanicsState before = state;
  const BenchSetup setup = setup_of(stays);
  mechanics.begin(before, climate, 0);
  std::vector<double> u = state.displacement;
  try {
    mechanics.equilibrate(bench.springs(setup, {}, 0), bench.load(setup), u);
  } catch (const StepFailed &failure) {
    throw NotConverged(std::string("The swollen neck could not be found: ") + failure.what());
  }
  mechanics.finish(state, u);
}

Reading Generator::elastic(const Cause &cause)
{
  MechanicsState state = unstressed(model);
  step(state, cause, 0, frozen_at);
  loaded_pull = pull_of(cause, state);
  return read(lines, state.displacement);
}

double Generator::pull_of(const Cause &cause, const MechanicsState &state) const
{
  const BenchForces forces =
      bench.forces(bench.springs(setup_of(cause), offsets_of(cause), 0), state.displacement);
  return forces.cord[0] + forces.cord[1];
}

double Generator::hottest_softening() const
{
  double hottest = 0;
  for (const GlueLineModel &line : model.glue_line)
    hottest = std::max(hottest, line.law->softening_temperature());
  return hottest;
}

void Generator::step(MechanicsState &state, const Cause &cause, double dt, double glue_temperature)
{
  mechanics.begin_with_glue_at(state, room_temperature, dt, glue_temperature);
  const BenchSetup setup = setup_of(cause);
  std::vector<double> load = bench.load(setup);
  for (std::size_t i = 0; i < cause.load.size(); ++i)
    load[i] += cause.load[i];
  std::vector<double> u = state.displacement;
  try {
    mechanics.equilibrate(bench.springs(setup, offsets_of(cause), 0), load, u);
  } catch (const StepFailed &failure) {
    throw NotConverged(std::string("The found shape could not be reached by any history: ") +
                       failure.what());
  }
  MechanicsState next = state;
  mechanics.finish(next, u);
  state = std::move(next);
}
} // namespace overbend::solver
