// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

namespace overbend::mesh
{
// Cross-section below the glue plane, and its map to columns and layers.
//
// The profile is |y/H|^n + (d/D)^n = 1 with half width H, depth D and d the depth below the top.
// Inside |y| <= Y (the core) columns are straight and upright. Outside it lies the quarter region
// with origin (Y, 0), mapped from the unit square (u outwards, v downwards) to a quarter disc
//   a = u sqrt(1 - v^2/2),  b = v sqrt(1 - u^2/2)   (Jacobian 1 - (u^2+v^2)/2 over a positive root)
// and from the disc by  y = Y + (H-Y) a s,  d = d(Y) b s,  s = 1 + (q-1) r^2,  r^2 = a^2 + b^2,
// q being the distance from (Y, 0) to the profile in that direction over the distance to the
// ellipse with the half axes H-Y and d(Y). The map is one to one inside; its Jacobian vanishes
// only at u = v = 1 where the profile is smooth: one line along the back on each side, on which
// volume gradients must not be asked for.
struct Section
{
  double half_width = 0;       // H
  double core = 0;             // Y
  double depth = 0;            // D
  double inverse_exponent = 0; // 1/n; 0 is a rectangle
};

// Depth of the profile below the top at |y| <= H.
double profile_depth(const Section &section, double y);

// Area inside the profile, 2 H D Gamma(1+1/n)^2 / Gamma(1+2/n).
double section_area(const Section &section);

// (y, d) of the point (u, v) of the outer region, on the side of positive y.
std::array<double, 2> outer_point(const Section &section, double u, double v);

// A line between two columns, the same along the whole neck.
// zone middle: y = W + t (Y - W), W the half width of the channel; zone channel: y = t W;
// zone outer: u = t. sign is -1 on the bass side, +1 on the treble side.
struct ColumnLine
{
  enum class Zone { channel, middle, outer } zone = Zone::channel;
  double t = 0;
  double sign = 1;
};

// Column lines from bass to treble at double density (2 cells + 1 lines). `channel` cells lie
// across the channel, `middle` and `outer` cells on each side. The lines are exactly symmetric.
std::vector<ColumnLine> column_lines(unsigned channel, unsigned middle, unsigned outer);
} // namespace overbend::mesh
