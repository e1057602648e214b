// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/scarf_wedge.h"

#include <algorithm>
#include <cmath>

namespace overbend::mesh
{
namespace
{
using Pair = std::array<double, 2>;

constexpr double nut_cell = 5e-3;      // length of the cell at the nut end of the board
constexpr double own_nut_block = 6e-3; // a scarf starting further in gets a block before it
constexpr double above_corner = 0.85;  // of the way from B to C along x, F

Pair lerp(const Pair &a, const Pair &b, double t)
{
  return {{a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t}};
}

// Transfinite interpolation from the four edges at (u, v) and the four corners.
Pair transfinite(const std::array<Pair, 4> &edges, const std::array<Pair, 4> &corners, double u,
                 double v)
{
  const auto &[bottom, top, left, right] = edges;
  Pair p;
  for (unsigned d = 0; d < 2; ++d)
    p[d] = (1 - v) * bottom[d] + v * top[d] + (1 - u) * left[d] + u * right[d] -
           ((1 - u) * (1 - v) * corners[0][d] + u * (1 - v) * corners[1][d] +
            (1 - u) * v * corners[2][d] + u * v * corners[3][d]);
  return p;
}
} // namespace

ScarfWedge::ScarfWedge(const NeckGrid &grid) : grid_(grid)
{
  const auto &profile = grid.profile;
  const double upper = grid.counts.upper();
  left_top = profile.scarf_bottom > own_nut_block ? profile.scarf_bottom : 0.0;
  const double length = profile.scarf_top - left_top;
  m_x_ = left_top + std::min(nut_cell / grid.counts.scale * grid.counts.lower, 0.15 * length);
  corners_.resize(grid.lines.size());
  for (unsigned j = 0; j < corners_.size(); ++j) {
    Corners &k = corners_[j];
    k.a = {{profile.scarf_top, 0}};
    k.b = {{left_top, 0}};
    k.c = {{solve(j, upper + 1), upper + 1}};
    k.e = {{solve(j, upper), upper}};
    k.f = {{left_x(j, upper), upper}};
    k.m = {{m_x_, 0}};
    // O lies above the channel's bottom, so that no corner of block c is flat there.
    k.o = {{k.f[0] + 0.3 * (k.e[0] - k.f[0]), 0.87 * upper}};
  }
}

double ScarfWedge::solve(unsigned line, double level) const
{
  const auto &profile = grid_.profile;
  if (level == 0)
    return profile.scarf_top;
  // The bracket begins at the scarf's start: behind it a headstock's back may lie in the plane.
  double low = profile.scarf_bottom, high = profile.scarf_top;
  const auto &column = grid_.lines[line];
  const auto below = [&](double x) {
    return grid_.section_point(x, column, level)[1] > (profile.scarf_top - x) * profile.scarf_slope;
  };
  for (unsigned i = 0; i < 60; ++i) {
    const double x = 0.5 * (low + high);
    (below(x) ? high : low) = x;
  }
  return 0.5 * (low + high);
}

double ScarfWedge::scarf_x(unsigned line, double level) const
{
  const auto known = solved_.find({line, level});
  if (known != solved_.end())
    return known->second;
  return solved_[{line, level}] = solve(line, level);
}

double ScarfWedge::left_x(unsigned line, double level) const
{
  // Two straight stretches, B to F and F to C, so that BC is nearly upright at C.
  const double upper = grid_.counts.upper();
  const double share = level < upper ? above_corner * level / upper
                                     : above_corner + (1 - above_corner) * (level - upper);
  return left_top + (corners_[line].c[0] - left_top) * share;
}

double ScarfWedge::top_x(double share) const
{
  // Cells grow from the nut towards the middle of the scarf.
  const double bend = 0.35;
  const double t = share * (1 - bend) + bend * share * share;
  return m_x_ + (grid_.profile.scarf_top - m_x_) * t;
}

Pair ScarfWedge::inner_edge(unsigned line, double level) const
{
  const auto &c = corners_[line];
  const double upper = grid_.counts.upper(), fillet = grid_.counts.fillet;
  const double at =
      level <= fillet ? level : fillet + (c.o[1] - fillet) * (level - fillet) / (upper - fillet);
  return {{c.m[0] + (c.o[0] - c.m[0]) * at / c.o[1], at}};
}

Pair ScarfWedge::block_a(unsigned line, unsigned i, unsigned k) const
{
  const auto &c = corners_[line];
  const double upper = grid_.counts.upper(), p = grid_.counts.lower_head;
  const double u = i / (2 * p), v = k / (2 * upper);
  const double level = upper - 0.5 * k;
  const Pair bottom = lerp(c.o, c.e, u), top = {{top_x(u), 0}};
  const Pair left = inner_edge(line, level), right = {{scarf_x(line, level), level}};
  return transfinite({{bottom, top, left, right}}, {{c.o, c.e, c.m, c.a}}, u, v);
}

Pair ScarfWedge::block_b(unsigned line, unsigned i, unsigned k) const
{
  const auto &c = corners_[line];
  const double upper = grid_.counts.upper(), q = grid_.counts.lower;
  const double u = i / (2 * q), v = k / (2 * upper);
  const double level = upper - 0.5 * k;
  const Pair bottom = lerp(c.f, c.o, u), top = lerp(c.b, c.m, u);
  const Pair left = {{left_x(line, level), level}}, right = inner_edge(line, level);
  return transfinite({{bottom, top, left, right}}, {{c.f, c.o, c.b, c.m}}, u, v);
}

Pair ScarfWedge::block_c(unsigned line, unsigned i, unsigned k) const
{
  const auto &c = corners_[line];
  const double upper = grid_.counts.upper(), q = grid_.counts.lower, p = grid_.counts.lower_head;
  const double u = i / (2 * q), v = k / (2 * p);
  const double on_scarf = upper + 1 - u, on_left = upper + 1 - v;
  const Pair bottom = {{scarf_x(line, on_scarf), on_scarf}}, top = lerp(c.f, c.o, u);
  const Pair left = {{left_x(line, on_left), on_left}}, right = lerp(c.e, c.o, v);
  return transfinite({{bottom, top, left, right}}, {{c.c, c.e, c.f, c.o}}, u, v);
}

std::vector<double> ScarfWedge::top_stations() const
{
  std::vector<double> x;
  const unsigned q = grid_.counts.lower, p = grid_.counts.lower_head;
  for (unsigned i = 0; i < 2 * q; ++i)
    x.push_back(block_b(0, i, 2 * grid_.counts.upper())[0]);
  for (unsigned i = 0; i <= 2 * p; ++i)
    x.push_back(block_a(0, i, 2 * grid_.counts.upper())[0]);
  return x;
}
} // namespace overbend::mesh
