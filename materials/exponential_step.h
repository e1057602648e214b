// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

// The pieces of an exact exponential step, safe for small and large arguments.
namespace overbend::materials
{
// (b - a)/ln(b/a), the mean of an exponential between a and b; both positive.
inline double logarithmic_mean(double a, double b)
{
  const double x = std::log(b / a);
  // Series of (e^x - 1)/x: the error of the terms left out is below 1e-13.
  if (std::abs(x) < 1e-3)
    return a * (1 + x / 2 * (1 + x / 3 * (1 + x / 4)));
  return (b - a) / x;
}

// Weights of dy/dh = p - y over a step h >= 0, p linear in h:
//   y1 = decay y0 + weight0 p0 + weight1 p1,   phi1 = (1 - e^-h)/h,
//   decay = e^-h, weight0 = phi1 - decay, weight1 = 1 - phi1.
struct ExponentialStep
{
  double decay = 1, weight0 = 0, weight1 = 0;
  double phi1 = 1;
};

inline ExponentialStep exponential_step(double h)
{
  ExponentialStep e;
  // Series: the differences of nearly equal numbers below lose digits as h goes to 0.
  if (h < 1e-2) {
    e.decay = std::exp(-h);
    e.weight1 = h / 2 * (1 - h / 3 * (1 - h / 4 * (1 - h / 5 * (1 - h / 6))));
    e.weight0 = h / 2 * (1 - h * 2 / 3 * (1 - h * 3 / 8 * (1 - h * 4 / 15 * (1 - h * 5 / 24))));
    e.phi1 = 1 - e.weight1;
    return e;
  }
  e.decay = std::exp(-h);
  e.phi1 = -std::expm1(-h) / h;
  e.weight0 = e.phi1 - e.decay;
  e.weight1 = 1 - e.phi1;
  return e;
}
} // namespace overbend::materials
