// SPDX-License-Identifier: GPL-3.0-or-later
// What temperature and moisture do to the constants of wood.
#include "materials/wood_law.h"

#include <algorithm>
#include <cmath>

namespace overbend::materials
{
namespace
{
constexpr double gas_constant = 8.314462618; // J/(mol K), CODATA 2018

// Share lost across the grain at +30 K, between the moistures of the handbook (6, 12, 20 %).
double drop_across(const Wood &wood, double moisture)
{
  const std::array<double, 3> &d = wood.drop_across;
  if (moisture <= 0.12)
    return d[0] + (d[1] - d[0]) * std::max(0., moisture - 0.06) / 0.06;
  return d[1] + (d[2] - d[1]) * std::min(1., (moisture - 0.12) / 0.08);
}

double creep_moisture(const Wood &wood, double moisture)
{
  return wood.creep_moisture_gain /
         (1 + std::exp((wood.creep_moisture_middle - moisture) / wood.creep_moisture_width));
}
} // namespace

Vector6 WoodLaw::roots_of_softening(double temperature, double moisture) const
{
  const Wood &w = material;
  const double m = std::clamp(moisture, 0., w.moisture_intersection);
  const double wet = log_green_ratio * (m - reference_moisture) /
                     (w.moisture_intersection - reference_moisture); // ln of moisture_factor()
  const double dT = temperature - reference_temperature;
  const double along = std::log1p(-w.drop_along * dT);
  const double across = std::log1p(-drop_across(w, m)) * dT / 30;
  const double shear = std::log1p(-w.drop_shear) * dT / 30;
  const double hot[6] = {along, across, across, shear, shear, shear};
  Vector6 root;
  for (unsigned a = 0; a < 6; ++a)
    root[a] = std::exp(-0.5 * (hot[a] + w.moisture_exponent[a] * wet));
  return root;
}

Compliance WoodLaw::elastic(double temperature, double moisture) const
{
  return congruent(reference, roots_of_softening(temperature, moisture));
}

double WoodLaw::shift(double temperature, double moisture) const
{
  const double hot =
      -material.activation_energy / gas_constant * (1 / temperature - 1 / reference_temperature);
  if (material.creep_moisture_gain == 0 || moisture == reference_moisture)
    return std::exp(hot);
  return std::exp(hot + creep_moisture(material, moisture) -
                  creep_moisture(material, reference_moisture));
}

std::array<double, 3> swelling_strain(const Wood &wood, double built, double moisture)
{
  const double from = std::clamp(built, 0., wood.fibre_saturation);
  const double to = std::clamp(moisture, 0., wood.fibre_saturation);
  const auto along = [&](double m) {
    const double past_knee = m - wood.swelling_knee;
    return past_knee * (past_knee < 0 ? wood.swelling_L_dry : wood.swelling_L_damp);
  };
  const auto across = [&](double shrinkage) {
    const double slope = shrinkage / wood.fibre_saturation;
    return slope * (to - from) / (1 - slope * (wood.fibre_saturation - from));
  };
  return {along(to) - along(from), across(wood.shrinkage_R), across(wood.shrinkage_T)};
}
} // namespace overbend::materials
