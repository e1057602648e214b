// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/climate/heat.h"
#include "solver/climate/moisture_steps.h"

#include <vector>

// Moisture of the neck over all phases: orthotropic diffusion and the air at its surfaces.
//
//   rho_0 dm/dt = div (rho_0 D(T,m) grad m),   -rho_0 D dm/dn = rho_0 S(T,m) (m - m_rest)
//
// m_rest = equilibrium_moisture(T_surface, p/p_sat(T_surface)) with p the vapour of the room: wood
// that is heated without added water dries at its surface. S by the finish of the face, and by the
// cloth around back, headstock, heel and the board's sides while the neck is wrapped. Closed to
// water: what lies under the bar, the faces held by the body, the walls of a channel and a glued
// tongue. A tongue that is not glued is bare below.
//
// Temperature drives moisture, both drive mechanics, and neither is driven by it: the history is
// computed once, after that of heat and with steps of its own.
namespace overbend::solver
{
// The driest that wood for necks has been before it became one, kg/kg: one for all woods of the
// table. Only below it is drying new to the wood.
double kiln_moisture();

struct MoistureState
{
  double time = 0;              // s since the start of the first phase
  std::vector<double> moisture; // kg/kg, one a node
  std::vector<double> driest;   // lowest each node has been at, the kiln included
  std::vector<double> travel;   // sum of |dm| of each node since the first state
};

// Moisture over time: states at the solver's own steps, linear in between. In a phase told in days
// whose air changes by the hour (AirSeries::breathes) moisture is followed by the hour, its states
// are running means over a day, and driest and travel are those of the hours; in a longer one they
// are carried over from weeks that are followed so (solver/climate/moisture_breathing.h).
class MoistureHistory
{
public:
  void add(double time, std::vector<double> moisture);
  void add(MoistureState state) { states.push_back(std::move(state)); }
  // Nodal moisture contents. Throws std::out_of_range before the first and after the last state.
  std::vector<double> at(double time) const;
  // Lowest so far. Between two states that of the first or the value itself.
  std::vector<double> driest(double time) const;
  // Sum of |dm| since the first state.
  std::vector<double> travel(double time) const;
  // All of it, for a history that goes on from there.
  MoistureState state_at(double time) const { return {time, at(time), driest(time), travel(time)}; }
  const std::vector<MoistureState> &all() const { return states; }

private:
  std::vector<MoistureState> states;
};

// At a time, or empty without a history.
std::vector<double> moisture_at(const MoistureHistory *history, double time);

// How each face meets the air of a phase: its finish by the case, the cloth of its wrap, and the
// board closed under the bar.
MoistureSurroundings moisture_surroundings(const Model &model, const cases::Case &the_case,
                                           const cases::Air &air, bool bar_on_board);

// The neck's moisture at the start, and the driest it has been, by cases::Moisture: as measured; at
// rest with the room if nothing is known; on the way from as it was built to rest with one air; or
// after a past in air that changes, followed with its finish from rest with the first of that air.
MoistureState moisture_at_start(const Model &model, const cases::Case &the_case);

// Its nodal moisture contents.
std::vector<double> starting_moisture(const Model &model, const cases::Case &the_case);

// Moisture over all phases from a neck at `start`; given as contents, of wood that was never drier
// since the kiln. heat: of the same phases. Throws
// std::runtime_error with a sentence that names the phase if the steps fail.
MoistureHistory simulate_moisture(const Model &model, const cases::Case &the_case,
                                  const std::vector<cases::Phase> &phases,
                                  const ThermalHistory &heat, const std::vector<double> &start,
                                  const MoistureStepLimits &limits = {});
MoistureHistory simulate_moisture(const Model &model, const cases::Case &the_case,
                                  const std::vector<cases::Phase> &phases,
                                  const ThermalHistory &heat, const MoistureState &start,
                                  const MoistureStepLimits &limits = {});
} // namespace overbend::solver
