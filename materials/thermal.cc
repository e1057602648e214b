// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/thermal.h"

#include <algorithm>

namespace overbend::materials
{
double gravity(const Wood &wood, double moisture)
{
  const double shrinkage = wood.shrinkage_volume * std::max(0., 1 - moisture / 0.30);
  return wood.gravity_green / (1 - shrinkage);
}

double density(const Wood &wood, double moisture)
{
  return 1000 * gravity(wood, moisture) * (1 + moisture);
}

double conductivity_across(const Wood &wood, double moisture)
{
  return gravity(wood, moisture) * (0.1941 + 0.4064 * moisture) + 0.01864;
}

double conductivity_along(const Wood &wood, double moisture)
{
  return wood.conduction_ratio * conductivity_across(wood, moisture);
}

double heat_capacity(double temperature, double moisture)
{
  const double percent = 100 * moisture;
  const double dry = 0.1031 + 0.003867 * temperature;
  const double bound = percent * (-0.06191 + 2.36e-4 * temperature - 1.33e-4 * percent);
  return 1000 * ((dry + 4.18 * moisture) / (1 + moisture) + bound);
}
} // namespace overbend::materials
