// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"

#include <stdexcept>

namespace overbend::materials
{
double branch_factor(double humidity, SorptionBranch branch)
{
  if (branch == SorptionBranch::mean)
    return 1;
  const double h = humidity;
  // Without the factor h that both share.
  const double up = 1 / (3.308 + (12.087 - 11.839 * h) * h);
  const double down = 1 / (2.393 + (10.122 - 8.935 * h) * h);
  return (branch == SorptionBranch::adsorption ? up : down) / ((up + down) / 2);
}

double equilibrium_moisture(double temperature, double humidity, SorptionBranch branch)
{
  const double t = temperature - 273.15; // degC
  if (!(humidity >= 0 && humidity <= 1) || !(t >= -40 && t <= 140))
    throw std::domain_error("equilibrium_moisture: humidity or temperature out of range");
  const double w = 349 + 1.29 * t + 0.0135 * t * t;
  const double k = 0.805 + 7.36e-4 * t - 2.73e-6 * t * t;
  const double k1 = 6.27 - 9.38e-3 * t - 3.03e-4 * t * t;
  const double k2 = 1.91 + 0.0407 * t - 2.93e-4 * t * t;
  const double kh = k * humidity;
  const double layer = k1 * kh, both = k1 * k2 * kh * kh;
  return 18 / w * (kh / (1 - kh) + (layer + 2 * both) / (1 + layer + both)) *
         branch_factor(humidity, branch);
}

double rest_humidity(double temperature, double moisture, SorptionBranch branch)
{
  if (!(moisture >= 0))
    throw std::domain_error("rest_humidity: negative moisture content");
  double low = 0, high = 1;
  if (equilibrium_moisture(temperature, high, branch) <= moisture)
    return 1;
  while (high - low > 1e-12) {
    const double middle = (low + high) / 2;
    (equilibrium_moisture(temperature, middle, branch) < moisture ? low : high) = middle;
  }
  return (low + high) / 2;
}
} // namespace overbend::materials
