// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat.h"
#include "solver/plan/first_guess.h"

#include <functional>
#include <vector>

// Closed forms of a beam of two layers whose line is not as soft everywhere: warm in the middle of
// the bar, cold and locked beyond it. They choose the hold of the heat and start the plan near its
// end; nothing that is clamped to rests on them.
namespace overbend::solver
{
// Modulus (Pa) of the board's line in equal cells along the neck, the mean across: what lies side
// by side slips by the same.
struct LineStiffness
{
  double from = 0, to = 0; // x, m
  std::vector<double> modulus;
  // The board goes on over a cold body that it is glued to: nothing slips at that end.
  bool locked_at_body = false;
};

// What each place of the board's line relaxes to at its own temperatures over the phases with heat.
LineStiffness relaxed_line(const Model &model, const std::vector<cases::Phase> &phases,
                           const ThermalHistory &heat);

// The same after `time` (s) at the temperatures in which a heated history ends, with what they are
// above the room (K) times `factor` and `warmer` (K) added.
LineStiffness held_line(const Model &model, const ThermalHistory &heat, double room, double factor,
                        double warmer, double time);

// Where a bow is read: gap at `at` under the chord from `from` to `to`, x, m.
struct ReadOver
{
  double from = 0, at = 0, to = 0;
};
ReadOver read_over(const cases::Case &the_case);

// Whether the board is glued to a cold body beyond the neck.
bool locked_at_body(const cases::Case &the_case);

// Moment along the neck of a clamp, of 1 over the cradle: from the pull at the headstock it grows
// to the cradle, and falls to where the body is held.
std::function<double(double x)> moment_of_clamp(const cases::Case &the_case);

// Share of complete slip that the reading keeps. With N the force in the line against that of the
// bonded beam, m the moment and b its value over the bonded stiffness:
//   (N'/a^2)' - N = -m,  N = 0 at the ends of the line or N' = 0 where it is locked,
//   a^2 = (G w/t_g) r^2/(rho (1 - rho) EI)
//   curvature = m + (1/rho - 1)(m - N),   kept/(1 - rho) with kept = 1 - y(m)/y(curvature)
// (Newmark, Siess and Viest 1951, from memory; central differences). SlippingBeam::length is not
// used: the line has its own.
double share_of_slip(const SlippingBeam &beam, const LineStiffness &line,
                     const std::function<double(double x)> &moment, const ReadOver &over);
} // namespace overbend::solver
