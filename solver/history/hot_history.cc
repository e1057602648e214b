// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/generating_histories.h"

#include "cases/case/humid_air.h"

#include <algorithm>

// The hot store as it was: not a pure kind of warp but a history of its own.
namespace overbend::solver
{
namespace
{
// Strings on in hot air, cooled, strings off.
std::vector<cases::Phase> hot_store(const cases::Case &the_case, double rest)
{
  cases::Phase hot;
  hot.kind = cases::PhaseKind::store;
  hot.name = "hot store";
  hot.duration = the_case.warp.hot_time;
  hot.air = the_case.room;
  hot.air.temperature = the_case.warp.temperature;
  hot.air.humidity = cases::humidity_after(the_case.room.humidity, the_case.room.temperature,
                                           the_case.warp.temperature);
  hot.strings = true;
  hot.rod = cases::acting(the_case.neck.rod.state);
  cases::Phase cool = hot;
  cool.name = "cooled, strings on";
  cool.air = the_case.room;
  cool.duration = 4 * 3600;
  cases::Phase off = cool;
  off.name = "strings off";
  off.strings = false;
  if (hot.rod == cases::RodState::set)
    off.rod = cases::RodState::slack; // slackened with the strings
  off.duration = std::max(600., rest);
  return {hot, cool, off};
}

// In the open the hot dry air takes water out of the wood. In a closed case it does not: the air of
// a guitar's case, some 50 l, holds less than a gram of water where the wood in it holds 100 g and
// more, so the air comes to rest with the wood and not the wood with the air.
MoistureHistory water_of_the_store(const cases::Case &the_case, const Model &model,
                                   const std::vector<cases::Phase> &phases,
                                   const ThermalHistory &heat, const std::vector<double> &moisture)
{
  if (the_case.warp.kept_in == cases::KeptIn::open_air)
    return simulate_moisture(model, the_case, phases, heat, moisture);
  MoistureHistory water;
  water.add(0, moisture);
  water.add(heat.end(), moisture);
  return water;
}
} // namespace

MechanicsState hot_history(const NeckOnBench &neck, const StringPull &strings,
                           const std::vector<double> &moisture, const MechanicsState &swollen,
                           double rest)
{
  const cases::Case &the_case = neck.the_case;
  const Model &model = neck.model;
  const auto phases = hot_store(the_case, rest);
  const std::vector<double> cold(model.space.n_nodes, the_case.room.temperature);
  const ThermalHistory heat = simulate_heat(model, the_case.heater, phases, cold);
  MoistureHistory water;
  SimulationOptions options;
  options.bow_error = the_case.numerics.bow_error;
  if (!moisture.empty()) {
    water = water_of_the_store(the_case, model, phases, heat, moisture);
    options.moisture = &water;
  }
  const Cause stays = seized_rod(the_case);
  Progress progress;
  progress.state = swollen;
  progress.setup.rod = stays.rod;
  progress.setup.rod_pulls_evenly = stays.rod_pulls_evenly;
  MechanicsState end = simulate(neck, phases, strings, heat, progress, options).end.state;
  // What is still missing of its water comes back before it is read.
  if (!moisture.empty())
    Generator(neck, stays).bring_to(end, water.all().back().moisture, moisture);
  add_times(end, -1, swollen);
  return end;
}
} // namespace overbend::solver
