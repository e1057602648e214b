// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/neck_grid.h"

#include "mesh/shape_error.h"

#include <algorithm>
#include <cmath>

namespace overbend::mesh
{
namespace
{
using Zone = ColumnLine::Zone;

// Without a channel: where its walls and bottom would be, so that the cells are well shaped.
constexpr double idle_half_share = 0.4;   // of the core's half width
constexpr double idle_depth_share = 0.55; // of the depth at the nut
constexpr double wide_neck = 57e-3;       // at fret 12: basses, twelve strings
constexpr double side_decline = 1 / 16.;  // two outer columns are as 4 to 1 along the glue plane
constexpr double settle = 40e-3;          // behind the nut, until the headstock's layers are even

// r, but never above 0.85: equal to r below 0.6 and then bending over smoothly.
double soft_limit(double r)
{
  constexpr double knee = 0.6, room = 0.25;
  return r < knee ? r : knee + room * std::tanh((r - knee) / room);
}
} // namespace

GridCounts grid_counts(const NeckProfile &profile, double resolution)
{
  if (!(resolution >= 0.5 && resolution <= 4))
    throw ShapeError("the mesh resolution is not between 0.5 and 4",
                     "1 is the default, 2 has twice the cells each way");
  const auto scaled = [resolution](double n) {
    return std::max(1u, static_cast<unsigned>(std::lround(n * resolution)));
  };
  GridCounts counts;
  counts.scale = resolution;
  // A bar is stiff against the wood around it, which shears and warps beside it in torsion.
  const bool bar = profile.shape.rod.kind == cases::RodKind::bonded_bar;
  counts.channel = scaled(bar ? 2 : 1);
  // No cell across the centre line, so that strips that mirror each other are meshed so.
  if (!profile.shape.laminations.empty())
    counts.channel += counts.channel % 2;
  // Beside the channel of a wide neck one column is too broad: the twist of a shaft whose board
  // slides came out 1.1 % short on the long-scale bass, 0.6 % with two (tests' mesh table).
  counts.middle = scaled(profile.has_channel && profile.shape.width_at_12 > wide_neck ? 2 : 1);
  // The edge of a glue line is its coldest and driest place, and a strip of one to two millimetres
  // there decides its stiffness: with one column a clamped neck kept 0.252 of its overbend, with
  // two 0.272, with three 0.274 (electric at resolution 0.5, bare). So never fewer than two.
  counts.outer = std::max(2u, scaled(2));
  counts.decline = side_decline;
  counts.fillet = profile.shape.rod.kind == cases::RodKind::single_action ? scaled(1) : 0;
  // Two layers beside the channel: once the board slides, the shaft twists on its own, and its
  // walls there shear most.
  counts.rod = scaled(2);
  // Two below the channel: under a heel they are tall, in a scarf they make the nut end fine.
  const bool tall = profile.has_scarf || profile.shape.heel.kind == cases::HeelKind::heel;
  counts.lower = scaled(tall ? 2 : 1);
  counts.board = scaled(1);
  counts.lower_head = counts.lower;
  if (profile.has_scarf) {
    const double length = profile.scarf_top - profile.scarf_bottom;
    counts.lower_head = std::max(scaled(2), scaled(std::min(4.0, length / 22e-3)));
  }
  return counts;
}

NeckGrid::NeckGrid(const NeckProfile &neck, const GridCounts &cells)
    : profile(neck), counts(cells),
      lines(column_lines(cells.channel, cells.middle, cells.outer, cells.decline)),
      channel_half(neck.has_channel ? neck.shape.rod.channel_width / 2
                                    : idle_half_share * neck.section(0).core)
{
  channel_depth =
      neck.has_channel ? neck.shape.rod.channel_depth : idle_depth_share * neck.depth(0);
  if (cells.fillet > 0)
    fillet_share = neck.shape.rod.fillet_depth / channel_depth;
}

bool NeckGrid::in_channel(unsigned column) const
{
  return lines[2 * column + 1].zone == Zone::channel;
}

// Depth of the channel's bottom over that of the profile, on a column line (at the inner edge of
// the outer region for its columns). Exact inside the channel; beyond it bends away from the back.
double NeckGrid::channel_share(double x, const ColumnLine &line, const Section &section) const
{
  double depth = channel_depth;
  if (x < 0)
    depth *= profile.depth(x) / profile.depth(0);
  else if (x > profile.channel_end)
    depth *= profile.depth(x) / profile.depth(profile.channel_end);
  const double y = line.zone == Zone::channel ? line.t * channel_half : channel_half;
  double share = depth / profile_depth(section, y);
  if (line.zone != Zone::channel) {
    const double at_core = soft_limit(depth / profile_depth(section, section.core));
    share += (line.zone == Zone::outer ? 1.0 : line.t) * (at_core - share);
  }
  if (line.zone == Zone::outer) // even towards the side
    share +=
        line.t * (static_cast<double>(counts.upper()) / (counts.upper() + counts.lower) - share);
  if (x < 0) {
    const double even = static_cast<double>(counts.upper()) / (counts.upper() + counts.lower_head);
    share += smooth_step(-x / settle) * (even - share);
  }
  return share;
}

std::array<double, 2> NeckGrid::section_point(double x, const ColumnLine &line, double level) const
{
  level = std::clamp(level, 0.0, counts.upper() + 1.0); // interpolated levels carry rounding
  const Section section = profile.section(x);
  const double channel = channel_share(x, line, section);
  const double fillet = counts.fillet, upper = counts.upper();
  double share = 0;
  if (level <= fillet)
    share = fillet > 0 ? channel * fillet_share * level / fillet : 0;
  else if (level <= upper)
    share = channel * (fillet > 0
                           ? fillet_share + (1 - fillet_share) * (level - fillet) / (upper - fillet)
                           : level / upper);
  else
    share = channel + (1 - channel) * (level - upper);
  if (line.zone == Zone::outer) {
    const auto p = outer_point(section, line.top + share * (line.t - line.top), share);
    return {{line.sign * p[0], p[1]}};
  }
  const double y = line.zone == Zone::channel
                       ? line.t * channel_half
                       : channel_half + line.t * (section.core - channel_half);
  return {{line.sign * y, share * profile_depth(section, y)}};
}

dealii::Point<3> NeckGrid::point(double x, const ColumnLine &line, double level) const
{
  const auto p = section_point(x, line, level);
  return {x, p[0], profile.top(x) - p[1]};
}

dealii::Point<3> NeckGrid::board_point(double x, const ColumnLine &line, double height) const
{
  const double y = section_point(x, line, 0)[0];
  return {x, y, height * profile.board_height(y)};
}
} // namespace overbend::mesh
