// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_profile.h"

#include <algorithm>
#include <cmath>
#include <functional>

// Volumes of the parts of a neck by integration of its profile, without any mesh.
namespace overbend::tests
{
// Composite Simpson rule.
inline double integral(const std::function<double(double)> &f, double a, double b, unsigned n = 400)
{
  if (b <= a)
    return 0;
  double sum = f(a) + f(b);
  for (unsigned i = 1; i < 2 * n; ++i)
    sum += (i % 2 == 1 ? 4 : 2) * f(a + (b - a) * i / (2 * n));
  return sum * (b - a) / (6 * n);
}

// Area of the section at x that lies less than `depth` below its top. With y = H sin(t) the
// vertical tangent of the profile at its edge does no harm.
inline double area_above(const mesh::NeckProfile &neck, double x, double depth)
{
  const mesh::Section s = neck.section(x);
  return 2 * integral(
                 [&](double t) {
                   const double y = s.half_width * std::sin(t);
                   return std::min(depth, mesh::profile_depth(s, y)) * s.half_width * std::cos(t);
                 },
                 0, std::acos(-1.0) / 2, 200);
}

inline double board_volume(const mesh::NeckProfile &neck)
{
  return integral(
      [&](double x) {
        return 2 *
               integral([&](double y) { return neck.board_height(y); }, 0, neck.half_width(x), 50);
      },
      0, neck.board_end, 20);
}

// Everything below the board and the headstock, the rod's channel taken as wood.
inline double lower_volume(const mesh::NeckProfile &neck)
{
  const auto area = [&](double x) { return area_above(neck, x, 1.0); };
  double sum = 0;
  const double ends[] = {neck.tip,        -0.045,         -0.03,        0,
                         neck.heel_start, neck.body_join, neck.neck_end};
  for (unsigned i = 0; i + 1 < std::size(ends); ++i)
    sum += integral(area, ends[i], ends[i + 1], 40);
  return sum;
}

// The headstock piece of a scarf, or the headstock behind the nut; channel taken as wood.
inline double headstock_volume(const mesh::NeckProfile &neck)
{
  const auto area = [&](double x) { return area_above(neck, x, 1.0); };
  double sum = integral(area, neck.tip, -0.045, 40) + integral(area, -0.045, -0.03, 40) +
               integral(area, -0.03, 0, 40);
  if (!neck.has_scarf)
    return sum;
  const auto wedge = [&](double x) {
    return area_above(neck, x, (neck.scarf_top - x) * neck.scarf_slope);
  };
  return sum + integral(area, 0, neck.scarf_bottom, 20) +
         integral(wedge, neck.scarf_bottom, neck.scarf_top, 100);
}

// Channel between two depths; part of it lies in the headstock piece of a scarf.
inline double channel_volume(const mesh::NeckProfile &neck, double from_depth, double to_depth)
{
  return neck.shape.rod.channel_width * (to_depth - from_depth) * neck.channel_end;
}
} // namespace overbend::tests
