// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"

#include <stdexcept>

namespace overbend::materials
{
double equilibrium_moisture(double temperature, double humidity)
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
  return 18 / w * (kh / (1 - kh) + (layer + 2 * both) / (1 + layer + both));
}
} // namespace overbend::materials
