// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/readings/bench_readings.h"

#include <cmath>
#include <functional>

// Lines with known shapes for the tests of readings: an invented neck of 640 mm scale, 20 frets.
namespace overbend::tests
{
inline solver::SampledLine line_of(const std::function<double(double)> &shape, int frets = 20,
                                   double scale_length = 0.640)
{
  solver::SampledLine line;
  for (int fret = 0; fret <= frets; ++fret) {
    line.x.push_back(scale_length * (1 - std::pow(2., -fret / 12.)));
    line.z.push_back(shape(line.x.back()));
  }
  return line;
}

// Constant curvature, forward for k > 0, on top of a tilt and a height that no reading may see.
inline solver::SampledLine parabola(double k)
{
  return line_of([k](double x) { return 0.006 - 0.01 * x + k / 2 * x * x; });
}

// The same curvature seen from the other side: heights negated.
inline solver::SampledLine upside_down(solver::SampledLine line)
{
  for (double &z : line.z)
    z = -z;
  return line;
}

// Bow of a line of constant curvature at m over the chord a..b: k/2 (m - a)(b - m) [C].
inline double bow_of_parabola(double k, double m, double a, double b)
{
  return k / 2 * (m - a) * (b - m);
}

// A repeatable irregular line (amplitude 0.05 mm), without the standard library's distributions,
// which differ between libraries.
inline solver::SampledLine irregular(unsigned seed)
{
  unsigned state = seed * 2654435761u + 1;
  return line_of([&state](double x) {
    state = state * 1664525u + 1013904223u;
    return 0.05e-3 * (state / 2147483648. - 1) + 0.001 * x;
  });
}
} // namespace overbend::tests
