// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

namespace overbend::solver
{
// Closed forms that start the plan near its end, so that its unit histories have the contact and
// the slack of the answer. Nothing that is printed rests on them.

// A beam of two layers joined by a line that slides: rho bending stiffness of the loose layers over
// that of the bonded ones, EI the bonded one (N m^2), r distance of the layers' centroids, width
// and glue_thickness of the line, m.
struct SlippingBeam
{
  double rho = 0.4, EI = 400, r = 0.01, width = 0.05, glue_thickness = 1e-4;
};

// The beam of a case: EI from the lift (m) of strings that pull with `tension` (N), rho by cord
// pull.
SlippingBeam slipping_beam(const cases::Case &the_case, double tension, double rho, double lift);

// Clamp reading for a released, unstrung reading t, of a neck read at b with the share q in the
// wood (trade reference 2.5, complete slip, blended with no slip by the share of slip s):
//   t = (1 - s) b + s (q b rho + c (1 - rho))
double clamp_for(double t, double b, double q, double rho, double s);
} // namespace overbend::solver
