// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/humid_air.h"

#include <algorithm>
#include <cmath>

namespace overbend::cases
{
double saturation_pressure(double temperature)
{
  const double t = temperature;
  return std::exp(-5.8002206e3 / t + 1.3914993 +
                  t * (-4.8640239e-2 + t * (4.1764768e-5 - 1.4452093e-8 * t)) +
                  6.5459673 * std::log(t));
}

double humidity_at(double temperature, double dew_point)
{
  return saturation_pressure(dew_point) / saturation_pressure(temperature);
}

double humidity_after(double humidity, double from_temperature, double to_temperature)
{
  if (from_temperature == to_temperature)
    return humidity;
  return std::min(1., humidity * saturation_pressure(from_temperature) /
                          saturation_pressure(to_temperature));
}
} // namespace overbend::cases
