// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/climate/air_series.h"
#include "solver/climate/heat_source.h"
#include "solver/model/model.h"

#include <vector>

// Heat: orthotropic conduction in the neck, air around it, a bar with an iron on its board.
//
//   rho c dT/dt = div (k grad T),   -k dT/dn = h (T - T_air) + eps sigma (T^4 - T_air^4)
//
// on free faces; behind a wrap (back, headstock, heel and the board's sides, never bar or iron)
// both in series with it. The walls of a channel are insulated. The board's glue line and the scarf
// conduct; the heel and a glued tongue lose heat to the body. The numbers that no case gives are
// named below. Unknown: T in K at the nodes, and along the bar. Steps are of second order with
// error control (heat_steps.h).
//
// In a phase with a climate the neck follows the air as one lump (solver/climate/air_series.h).
//
// Temperature drives mechanics and not the other way round, so the whole history is computed first.
namespace overbend::solver
{
// Emissivity of wood, bare or finished [E].
constexpr double surface_emissivity = 0.9;
// A glue line: 0.1 mm of 0.2 W/(m K) [E]. It does not matter much: the board alone is 60 times
// that.
constexpr double glue_line_conductance = 2000; // W/(m^2 K)
// From the tongue's underside through the top of the body to air and to the block below, at air
// temperature [E].
constexpr double tongue_to_body = 7; // W/(m^2 K)
// From the heel or pocket into the wood of the body's block, at air temperature [E].
constexpr double heel_to_body = 8; // W/(m^2 K)

struct ThermalState
{
  double time = 0;                 // s since the start of the first phase
  std::vector<double> temperature; // K, one a node
  std::vector<double> bar;         // K, one a node of the bar; empty while the bar is off
  double power = 0;                // W, of the iron, mean since the state before
};

// Temperatures over time: states at the heat solver's own steps, linear in between. A phase
// boundary may hold two states of equal time (nothing jumps in the wood, but the bar comes and
// goes).
class ThermalHistory
{
public:
  void add(ThermalState state) { states.push_back(std::move(state)); }
  // Nodal temperatures, K. Throws std::out_of_range before the first and after the last state.
  std::vector<double> at(double time) const;
  // The air of the phase with a climate that a step from `time` to time + dt lies in; null: none.
  const AirSeries *air(double time, double dt) const;
  void add(AirSeries series) { climates.push_back(std::move(series)); }
  const std::vector<ThermalState> &all() const { return states; }
  double end() const { return states.back().time; }

private:
  std::vector<ThermalState> states;
  std::vector<AirSeries> climates;
};

struct HeatOptions
{
  double first_step = 5; // s, after each change of a phase
  double error = 0.05;   // K, allowed in one step, and between a state and a straight line
  double longest_step = 30 * 86400; // s; keeps the states of years few
};

// Temperatures over all phases, from a neck at `start` (nodal temperatures, K).
//
// The bar is one through all phases: at air temperature before the first, lying on the board with
// the iron on it while Phase::heater is true, lifted off and cooling in the air while it is not.
// What holds the heat is ideal: Phase::bar_temperature at Heater::bar_sensor within the power; or
// the probe at its figure, as heat_hold.h says. A parked iron holds its own soleplate. Throws
// std::runtime_error if the bar lies beside the board, or with a sentence that names the phase if
// the steps fail.
ThermalHistory simulate_heat(const Model &model, const HeatSource &source,
                             const std::vector<cases::Phase> &phases,
                             const std::vector<double> &start, const HeatOptions &options = {});

// Whether the board over the body is glued down.
bool tongue_is_glued(const Model &model);

// Temperature at a point, K; throws std::runtime_error if it is off the neck (sampling.h).
double temperature_at(const Model &model, const ThermalState &state, double x, double y, double z);
} // namespace overbend::solver
