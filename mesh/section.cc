// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/section.h"

#include "mesh/grading.h"

#include <algorithm>
#include <cmath>

namespace overbend::mesh
{
namespace
{
constexpr double rectangle_limit = 1e-3; // exponents above 1000 are taken as a rectangle

// The superellipse norm of (y/H, d/D) along the ray y = Y + rho (H-Y) alpha, d = rho d(Y) beta,
// less one. Convex in rho, so Newton's method from outside descends to the root.
double ray_to_profile(const Section &s, double alpha, double beta)
{
  const double y0 = s.core / s.half_width, dy = (1 - y0) * alpha;
  const double dz = profile_depth(s, s.core) / s.depth * beta;
  if (s.inverse_exponent < rectangle_limit)
    return std::min(dy > 0 ? (1 - y0) / dy : HUGE_VAL, dz > 0 ? 1 / dz : HUGE_VAL);
  const double n = 1 / s.inverse_exponent;
  double rho = 1.6;
  for (unsigned i = 0; i < 60; ++i) {
    const double p = y0 + rho * dy, q = rho * dz, m = std::max(p, q);
    const double fp = std::pow(p / m, n), fq = std::pow(q / m, n);
    const double norm = m * std::pow(fp + fq, s.inverse_exponent);
    const double weight = norm / (fp + fq);
    const double slope = weight * (fp * dy / p + (q > 0 ? fq * dz / q : 0.0));
    const double step = (norm - 1) / slope;
    rho -= step;
    if (std::abs(step) < 1e-15)
      break;
  }
  return rho;
}
} // namespace

double profile_depth(const Section &s, double y)
{
  const double r = std::min(1.0, std::abs(y) / s.half_width);
  if (s.inverse_exponent < rectangle_limit)
    return s.depth;
  const double n = 1 / s.inverse_exponent;
  return s.depth * std::pow(1 - std::pow(r, n), s.inverse_exponent);
}

double profile_half_width(const Section &s, double depth)
{
  const double r = std::min(1.0, depth / s.depth);
  if (s.inverse_exponent < rectangle_limit)
    return s.half_width;
  const double n = 1 / s.inverse_exponent;
  return s.half_width * std::pow(1 - std::pow(r, n), s.inverse_exponent);
}

double section_area(const Section &s)
{
  // integral of (1-r^n)^(1/n) over 0..1 = Gamma(1+1/n)^2 / Gamma(1+2/n)
  const double i = s.inverse_exponent < rectangle_limit ? 0.0 : s.inverse_exponent;
  return 2 * s.half_width * s.depth * std::exp(2 * std::lgamma(1 + i) - std::lgamma(1 + 2 * i));
}

std::array<double, 2> outer_point(const Section &s, double u, double v)
{
  const double width = s.half_width - s.core, depth = profile_depth(s, s.core);
  const double half = std::sqrt(0.5);
  const double corner = half * ray_to_profile(s, half, half);
  const double side_b = v * corner, bottom_a = u * corner;
  const double side_a = (profile_half_width(s, depth * side_b) - s.core) / width;
  const double bottom_b = profile_depth(s, s.core + width * bottom_a) / depth;
  const double su = std::sqrt(1 - u * u / 2), sv = std::sqrt(1 - v * v / 2);
  const double both = u * v * (corner - half);
  const double a = u * sv + u * (side_a - sv) + v * (bottom_a - u * half) - both;
  const double b = v * su + u * (side_b - v * half) + v * (bottom_b - su) - both;
  return {{s.core + width * a, depth * b}};
}

std::vector<ColumnLine> column_lines(unsigned channel, unsigned middle, unsigned outer,
                                     double decline)
{
  using Zone = ColumnLine::Zone;
  std::vector<ColumnLine> half; // treble side, from the centre outwards
  // 2 channel + 1 lines of double density across the channel: channel + 1 of them on this side.
  for (unsigned i = 0; i <= channel; ++i)
    half.push_back({Zone::channel, i / static_cast<double>(channel), 1});
  for (unsigned i = 1; i <= 2 * middle; ++i)
    half.push_back({Zone::middle, i / (2.0 * middle), 1});
  const auto top = graded_lines(outer, decline), back = graded_lines(outer, 1 / decline);
  for (unsigned i = 1; i <= 2 * outer; ++i)
    half.push_back({Zone::outer, back[i], 1, top[i]});
  std::vector<ColumnLine> lines;
  for (auto line = half.rbegin(); line + 1 != half.rend(); ++line)
    lines.push_back({line->zone, line->t, -1, line->top});
  lines.insert(lines.end(), half.begin(), half.end());
  return lines;
}
} // namespace overbend::mesh
