// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case.h"
#include "solver/model.h"

#include <vector>

// Heat: orthotropic conduction in the neck, air around it, a bar with an iron on its board.
//
//   rho c dT/dt = div (k grad T),   -k dT/dn = h (T - T_air) + radiation on free faces
//
// Temperature drives mechanics and not the other way round, so the whole history is computed first.
namespace overbend::solver
{
struct ThermalState
{
  double time = 0;                    // s since the start of the first phase
  std::vector<double> temperature;    // K, one a node
  std::vector<double> bar;            // K, one a node of the bar; empty while the bar is off
  double power = 0;                   // W, of the iron, mean since the state before
};

// Temperatures over time: states at the heat solver's own steps, linear in between. A phase
// boundary may hold two states of equal time (nothing jumps in the wood, but the bar comes and goes).
class ThermalHistory
{
public:
  void add(ThermalState state) { states.push_back(std::move(state)); }
  std::vector<double> at(double time) const;          // nodal temperatures, K
  const std::vector<ThermalState> &all() const { return states; }
  double end() const { return states.back().time; }

private:
  std::vector<ThermalState> states;
};

struct HeatOptions
{
  double first_step = 5;       // s, after each change of a phase
  double error = 0.05;         // K, allowed in one step
  double longest_step = 43200; // s
};

// Temperatures over all phases, from a neck at `start` (nodal temperatures, K).
ThermalHistory simulate_heat(const Model &model, const cases::Heater &heater,
                             const std::vector<cases::Phase> &phases,
                             const std::vector<double> &start, const HeatOptions &options = {});
}  // namespace overbend::solver
