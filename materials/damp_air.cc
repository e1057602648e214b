// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/damp_air.h"

#include "cases/case/humid_air.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::materials
{
namespace
{
constexpr double coldest = 233.15, hottest = 473.15; // K

double log_pressure(double t)
{
  return std::log(cases::saturation_pressure(t));
}

// Of the formula in cases/case/humid_air.h.
double slope_of_log_pressure(double t)
{
  return 5.8002206e3 / (t * t) - 4.8640239e-2 + t * (2 * 4.1764768e-5 - 3 * 1.4452093e-8 * t) +
         6.5459673 / t;
}

void check(double temperature)
{
  if (!(temperature >= coldest && temperature <= hottest))
    throw std::domain_error("damp air: temperature outside -40 to 200 degC");
}
} // namespace

double saturation_pressure(double temperature)
{
  check(temperature);
  return cases::saturation_pressure(temperature);
}

double humidity_from_dew_point(double temperature, double dew_point)
{
  if (!(dew_point <= temperature))
    throw std::domain_error("damp air: the dew point is above the temperature of the air");
  return saturation_pressure(dew_point) / saturation_pressure(temperature);
}

double dew_point(double temperature, double humidity)
{
  check(temperature);
  if (!(humidity > 0 && humidity <= 1))
    throw std::domain_error("damp air: humidity outside 0 to 1");
  const double target = log_pressure(temperature) + std::log(humidity);
  if (target < log_pressure(coldest))
    throw std::domain_error("damp air: the dew point is below -40 degC");
  double t = temperature;
  // ln p is concave in t: from above the first step may go too far, then Newton comes from below.
  for (unsigned n = 0; n < 50; ++n) {
    const double change = (target - log_pressure(t)) / slope_of_log_pressure(t);
    t = std::max(coldest, t + change);
    if (std::abs(change) < 1e-10)
      break;
  }
  return std::min(t, temperature);
}

double humidity_after_heating(double from_temperature, double humidity, double to_temperature)
{
  if (!(humidity >= 0 && humidity <= 1))
    throw std::domain_error("damp air: humidity outside 0 to 1");
  return std::min(1., humidity * saturation_pressure(from_temperature) /
                          saturation_pressure(to_temperature));
}
} // namespace overbend::materials
