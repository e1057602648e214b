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
// with origin (Y, 0) and scaled coordinates a = (y - Y)/(H - Y), b = d/d(Y), mapped from the unit
// square (u outwards, v downwards). The map of the square to a quarter disc,
//   a = u sqrt(1 - v^2/2),  b = v sqrt(1 - u^2/2)   (Jacobian positive but at u = v = 1),
// is corrected by the bilinear blend (Coons) of what it lacks on the profile: u = 1 runs down the
// side with b = v c, v = 1 along the bottom with a = u c, c being a = b where the profile is met at
// 45 degrees. An ellipse keeps the disc's map nearly unchanged; a rectangle gets the regular grid.
// Where the profile is smooth at u = v = 1 the Jacobian vanishes there: one line along the back on
// each side, on which gradients must not be asked for.
struct Section
{
  double half_width = 0;       // H
  double core = 0;             // Y
  double depth = 0;            // D
  double inverse_exponent = 0; // 1/n; 0 is a rectangle
};

// Depth of the profile below the top at |y| <= H.
double profile_depth(const Section &section, double y);

// Half width of the profile at a depth between 0 and D.
double profile_half_width(const Section &section, double depth);

// Area inside the profile, 2 H D Gamma(1+1/n)^2 / Gamma(1+2/n).
double section_area(const Section &section);

// (y, d) of the point (u, v) of the outer region, on the side of positive y.
std::array<double, 2> outer_point(const Section &section, double u, double v);

// A line between two columns, the same along the whole neck.
// zone middle: y = W + t (Y - W), W the half width of the channel; zone channel: y = t W;
// zone outer: u = top + v (t - top). sign is -1 on the bass side, +1 on the treble side.
struct ColumnLine
{
  enum class Zone { channel, middle, outer } zone = Zone::channel;
  double t = 0;
  double sign = 1;
  double top = 0; // outer zone only
};

// Column lines from bass to treble at double density (2 cells + 1 lines). `channel` cells lie
// across the channel, `middle` and `outer` cells on each side. The lines are exactly symmetric.
// `decline` is that of the outer columns along the top from the core to the side (graded_lines,
// mesh/grading.h); along the back they decline the other way, so that the column with the singular
// line at u = v = 1 stays broad there.
std::vector<ColumnLine> column_lines(unsigned channel, unsigned middle, unsigned outer,
                                     double decline = 1);
} // namespace overbend::mesh
