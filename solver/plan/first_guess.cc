// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/first_guess.h"

#include "solver/model/build_model.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
// Mean over the board's line of the modulus after the reduced time of each of its points.
template <typename ReducedTime>
double mean_modulus(const Model &model, const ReducedTime &reduced)
{
  const auto &law = *model.glue_line[board_line].law;
  double sum = 0, area = 0;
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    if (p.line != board_line)
      continue;
    // The shift is 1 at the softening temperature, so reduced time is time there.
    sum += p.weight * law.relaxation_modulus(law.softening_temperature(), reduced(g));
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

SlippingBeam slipping_beam(const cases::Case &c, double tension, double rho, double lift,
                           double board_length)
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
  beam.length = board_length;
  // Glued to the cold body, the line can slide at one end only.
  if (neck.tongue_glued && neck.heel.kind == cases::HeelKind::heel)
    beam.length *= 2;
  beam.glue_thickness = c.board_glue.thickness;
  return beam;
}

double relaxed_modulus(const Model &model, const std::vector<cases::Phase> &phases,
                       const ThermalHistory &heat)
{
  const auto &law = *model.glue_line[board_line].law;
  std::vector<double> reduced(model.glue_point.size(), 0.);
  double time = 0;
  for (const cases::Phase &phase : phases) {
    constexpr unsigned samples = 20;
    const double dt = phase.duration / samples;
    for (unsigned k = 0; k < samples && phase.heater; ++k) {
      const std::vector<double> T = heat.at(time + (k + 0.5) * dt);
      for (std::size_t g = 0; g < reduced.size(); ++g)
        reduced[g] += dt * std::exp(law.log_shift(mean_of_sides(model.glue_point[g], T)));
    }
    time += phase.duration;
  }
  return mean_modulus(model, [&](std::size_t g) { return reduced[g]; });
}

double held_modulus(const Model &model, const ThermalHistory &heat, double room, double factor,
                    double warmer, double time)
{
  const auto &law = *model.glue_line[board_line].law;
  const std::vector<double> &T = heat.all().back().temperature;
  return mean_modulus(model, [&](std::size_t g) {
    const double at = mean_of_sides(model.glue_point[g], T);
    return time * std::exp(law.log_shift(room + factor * (at - room) + warmer));
  });
}

double clamp_for(double t, double b, double q, double rho, double s)
{
  return (t - (1 - s) * b - s * q * b * rho) / (s * (1 - rho));
}
} // namespace overbend::solver
