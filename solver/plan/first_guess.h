// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat.h"
#include "solver/history/start.h"

namespace overbend::solver
{
// Closed forms that start the plan near its end, so that its unit histories have the contact and
// the slack of the answer. Nothing that is printed rests on them.

// Share of complete slip that a line of relaxed modulus G gives a uniformly bent neck:
//   kept/(1 - rho),  kept = 1 - (L^2/8)/(L^2/8 + (1/rho - 1)(1 - sech(aL/2))/a^2),
//   a^2 = (G b/t_g) r^2/(rho (1 - rho) EI)
// (Newmark, Siess and Viest 1951, from memory; constant moment, free ends). EI bonded bending
// stiffness, N m^2; r distance of the layers' centroids, b width, L length of the line, m.
struct SlippingBeam
{
  double rho = 0.4, EI = 400, r = 0.01, width = 0.05, length = 0.46, glue_thickness = 1e-4;
};
double share_of_slip(const SlippingBeam &beam, double relaxed_modulus);

// The beam of a case: EI from the lift (m) of strings that pull with `tension` (N), rho by cord
// pull, length of the board (m).
SlippingBeam slipping_beam(const cases::Case &the_case, double tension, double rho, double lift,
                           double board_length);

// Modulus (Pa) to which the board's line relaxes over the phases with heat: the mean over the area
// of what each place relaxes to at its own temperatures, since the stiff edges carry beside the
// soft middle.
double relaxed_modulus(const Model &model, const std::vector<cases::Phase> &phases,
                       const ThermalHistory &heat);

// The same after `time` (s) at the temperatures in which a heated history ends, with what they are
// above the room (K) times `factor` and `warmer` (K) added.
double held_modulus(const Model &model, const ThermalHistory &heat, double room, double factor,
                    double warmer, double time);

// Clamp reading for a released, unstrung reading t, of a neck read at b with the share q in the
// wood (trade reference 2.5, complete slip, blended with no slip by the share of slip s):
//   t = (1 - s) b + s (q b rho + c (1 - rho))
double clamp_for(double t, double b, double q, double rho, double s);
} // namespace overbend::solver
