// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat.h"

#include "mesh/names.h"
#include "solver/climate/heat_hold.h"
#include "solver/climate/heat_steps.h"
#include "solver/climate/heat_system.h"
#include "solver/equations/in_time.h"
#include "solver/model/sampling.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using mesh::Face;

unsigned id(Face face)
{
  return static_cast<unsigned>(face);
}

// A film behind a wrap: the little that radiation from its outside is above linear is left out.
FaceFilm wrapped(const FaceFilm &film, double wrap)
{
  const double outside = film.conductance + linear_radiation(film.emissivity, film.air);
  return {1 / (1 / outside + 1 / wrap), film.air, 0};
}

HeatSurroundings surroundings_of(const Model &model, const cases::Air &air,
                                 const std::optional<BarOnBoard> &bar, bool heater)
{
  HeatSurroundings s;
  const FaceFilm bare{air.film, air.temperature, surface_emissivity};
  for (const Face face :
       {Face::board_top, Face::board_side, Face::board_nut_end, Face::board_body_end, Face::back,
        Face::headstock_face, Face::headstock_other})
    s.film[id(face)] = air.wrapped ? wrapped(bare, air.wrap_conductance) : bare;
  if (!tongue_is_glued(model))
    s.film[id(Face::tongue_under)] = bare;
  s.film[id(Face::body)] = {heel_to_body, air.temperature, 0};
  s.glue = glue_line_conductance;
  s.body = tongue_to_body;
  s.body_temperature = air.temperature;
  s.bar = bar;
  if (s.bar) {
    s.bar->air = air.temperature;
    s.bar->on_board = heater;
  }
  return s;
}

// Time in which the neck as one lump comes within 1/e of the air: heat content over exchange, s.
double lag_of(const HeatSystem &system)
{
  const std::vector<double> ones(system.size(), 1.);
  double exchange = 0;
  for (const double flow :
       tr_bdf2::rate(system.conduction, std::vector<double>(ones.size(), 0.), ones))
    exchange -= flow;
  return system.heat_content(ones) / exchange;
}

// The neck follows changing air; what it differs inside at the start dies out with the lag.
std::vector<HeatMoment> run_climate(const HeatSystem &system, const cases::Phase &phase,
                                    const HeatMoment &start, ThermalHistory &history)
{
  constexpr double bend = 0.1; // K, between a state and a straight line
  const double lag = lag_of(system);
  const double mean = system.heat_content(start.temperature) /
                      system.heat_content(std::vector<double>(system.size(), 1.));
  const AirSeries series(phase, start.time, lag, mean);
  std::vector<double> times = series.bends(bend);
  for (unsigned k = 1; k < 20 && k * lag / 4 < phase.duration; ++k)
    times.push_back(start.time + k * lag / 4);
  std::sort(times.begin(), times.end());
  std::vector<HeatMoment> moments;
  for (const double time : times) {
    if (!(time > (moments.empty() ? start.time : moments.back().time) + 1))
      continue;
    const double left = std::exp(-(time - start.time) / lag);
    HeatMoment moment{time, start.temperature, 0};
    for (double &T : moment.temperature)
      T = series.shown(time) + left * (T - mean);
    moments.push_back(std::move(moment));
  }
  moments.back().time = start.time + phase.duration;
  history.add(series);
  return moments;
}

ThermalState state_at(const HeatMoment &moment, unsigned n_nodes, bool heater)
{
  ThermalState state;
  state.time = moment.time;
  state.power = moment.power;
  const auto middle = moment.temperature.begin() + n_nodes;
  state.temperature.assign(moment.temperature.begin(), middle);
  if (heater)
    state.bar.assign(middle, moment.temperature.end());
  return state;
}

// The bar is on the board: by its thermostat, by the probe, or as a parked iron makes it.
std::vector<HeatMoment> run_heated(const HeatSystem &system, HeatStepper &stepper,
                                   const cases::Phase &phase, const HeatSource &source,
                                   const HeatStepLimits &limits, std::optional<LastLook> &look)
{
  const cases::Heater &heater = source.heater;
  if (heater.source == cases::HeatSource::parked) {
    double heat = system.parked_heat(stepper.temperature());
    auto moments = run_heat(stepper, phase.duration, std::nullopt, limits);
    for (HeatMoment &moment : moments) {
      const double later = system.parked_heat(moment.temperature);
      moment.power = (heat + later) / 2;
      heat = later;
    }
    return moments;
  }
  if (source.probe)
    return hold_by_probe(system, stepper, phase.duration,
                         {*source.probe, source.hold_at, phase.bar_temperature, heater.power},
                         limits, look);
  return run_heat(stepper, phase.duration, Thermostat{phase.bar_temperature, heater.power}, limits);
}

std::vector<HeatMoment> run_phase(const Model &model, const cases::Phase &phase,
                                  const HeatSource &source, const std::optional<BarOnBoard> &bar,
                                  const HeatMoment &start, const HeatOptions &options,
                                  ThermalHistory &history, std::optional<LastLook> &look)
{
  if (!phase.heater)
    look.reset();
  try {
    const HeatSystem system(model, surroundings_of(model, phase.air, bar, phase.heater));
    if (!phase.climate.points.empty())
      return run_climate(system, phase, start, history);
    HeatStepper stepper(system, start.temperature, start.time, 0.02 * options.error);
    const HeatStepLimits limits{options.first_step, options.longest_step, options.error};
    return phase.heater ? run_heated(system, stepper, phase, source, limits, look)
                        : run_heat(stepper, phase.duration, std::nullopt, limits);
  } catch (const std::runtime_error &error) {
    throw std::runtime_error("Phase \"" + phase.name + "\", heat: " + error.what());
  }
}
} // namespace

std::vector<double> ThermalHistory::at(double time) const
{
  const PlaceInTime place = place_in_time(states, time, "temperatures are");
  if (place.share == 0)
    return states[place.before].temperature;
  return between(states[place.before].temperature, states[place.before + 1].temperature,
                 place.share);
}

const AirSeries *ThermalHistory::air(double time, double dt) const
{
  for (const AirSeries &series : climates)
    if (time > series.begin() - 1 && time + dt < series.end() + 1)
      return &series;
  return nullptr;
}

bool tongue_is_glued(const Model &model)
{
  std::vector<bool> on_body(model.space.n_nodes, false);
  for (const GluePoint &p : model.glue_point)
    on_body[p.upper] = on_body[p.upper] || p.lower < 0;
  const auto nodes = face_nodes(model.space, id(Face::tongue_under));
  return std::any_of(nodes.begin(), nodes.end(),
                     [&](const FaceNode &n) { return on_body[n.node]; });
}

ThermalHistory simulate_heat(const Model &model, const HeatSource &source,
                             const std::vector<cases::Phase> &phases,
                             const std::vector<double> &start, const HeatOptions &options)
{
  const unsigned n_nodes = model.space.n_nodes;
  if (start.size() != n_nodes || phases.empty())
    throw std::logic_error("heat needs a phase and a temperature for each node");
  std::optional<BarOnBoard> bar;
  if (std::any_of(phases.begin(), phases.end(), [](const auto &p) { return p.heater; }))
    bar = make_bar(source);

  HeatMoment now{0, start, 0};
  std::optional<LastLook> look;
  if (bar)
    now.temperature.resize(n_nodes + bar_nodes(*bar).size(), phases.front().air.temperature);
  ThermalHistory history;
  history.add(state_at(now, n_nodes, phases.front().heater));
  bool heated = phases.front().heater;
  for (const cases::Phase &phase : phases) {
    const double begin = now.time;
    if (phase.heater != heated) {
      now.power = 0;
      history.add(state_at(now, n_nodes, phase.heater));
      heated = phase.heater;
    }
    for (HeatMoment &moment : run_phase(model, phase, source, bar, now, options, history, look)) {
      history.add(state_at(moment, n_nodes, heated));
      now = std::move(moment);
    }
    now.time = begin + phase.duration;
  }
  return history;
}

double temperature_at(const Model &model, const ThermalState &state, double x, double y, double z)
{
  return find_point(model.space, {x, y, z}).value(state.temperature);
}
} // namespace overbend::solver
