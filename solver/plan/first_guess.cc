// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/first_guess.h"

#include "solver/model/build_model.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
// Mean of the board's glue line, K.
double line_temperature(const Model &model, const std::vector<double> &temperature)
{
  double sum = 0, area = 0;
  for (const GluePoint &p : model.glue_point)
    if (p.line == board_line) {
      sum += p.weight * temperature[p.upper];
      area += p.weight;
    }
  return sum / area;
}
} // namespace

double share_of_slip(const SlippingBeam &beam, double modulus)
{
  const double stiffness = modulus * beam.width / beam.glue_thickness;
  const double a = std::sqrt(stiffness * beam.r * beam.r / (beam.rho * (1 - beam.rho) * beam.EI));
  const double half = a * beam.length / 2;
  const double bonded = beam.length * beam.length / 8;
  // (1 - sech x)/x^2 goes to 1/2 for small x, where the difference loses digits.
  const double slip = half < 1e-3 ? bonded : (1 - 1 / std::cosh(half)) / (a * a);
  const double kept = 1 - bonded / (bonded + (1 / beam.rho - 1) * slip);
  return kept / (1 - beam.rho);
}

double relaxed_modulus(const Model &model, const std::vector<cases::Phase> &phases,
                       const ThermalHistory &heat)
{
  const auto &law = *model.glue_line[board_line].law;
  double reduced = 0, time = 0;
  for (const cases::Phase &phase : phases) {
    constexpr unsigned samples = 20;
    const double dt = phase.duration / samples;
    for (unsigned k = 0; k < samples && phase.heater; ++k)
      reduced +=
          dt * std::exp(law.log_shift(line_temperature(model, heat.at(time + (k + 0.5) * dt))));
    time += phase.duration;
  }
  // The shift is 1 at the softening temperature, so reduced time is time there.
  return law.relaxation_modulus(law.softening_temperature(), reduced);
}

double clamp_for(double t, double b, double q, double rho, double s)
{
  return (t - (1 - s) * b - s * q * b * rho) / (s * (1 - rho));
}
} // namespace overbend::solver
