// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/first_guess.h"

namespace overbend::solver
{
SlippingBeam slipping_beam(const cases::Case &c, double tension, double rho, double lift)
{
  const cases::NeckShape &neck = c.neck;
  const double span = cases::fret_position(neck.scale_length, c.found.rest_fret_b) -
                      cases::fret_position(neck.scale_length, c.found.rest_fret_a);
  SlippingBeam beam;
  beam.rho = rho;
  // Strings some 13 mm over the neutral axis bend the neck evenly (trade reference 3.4).
  beam.EI = tension * 13e-3 * span * span / 8 / lift;
  // Half a D-shaped shaft's depth lies above its centroid, or nearly.
  beam.r = (neck.board_thickness + 0.85 * (neck.depth_at_12 - neck.board_thickness)) / 2;
  beam.width = (neck.nut_width + neck.width_at_12) / 2;
  beam.glue_thickness = c.board_glue.thickness;
  return beam;
}

double clamp_for(double t, double b, double q, double rho, double s)
{
  return (t - (1 - s) * b - s * q * b * rho) / (s * (1 - rho));
}
} // namespace overbend::solver
