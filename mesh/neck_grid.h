// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_profile.h"

#include <deal.II/base/point.h>

#include <vector>

namespace overbend::mesh
{
// How many cells a neck gets. `scale` multiplies the counts in the section and divides the sizes
// along the length.
struct GridCounts
{
  unsigned channel = 1;    // columns across the channel
  unsigned middle = 1;     // columns from the channel to the outer region, each side
  unsigned outer = 2;      // columns of the outer region, each side
  double decline = 1;      // of the outer columns along the glue plane (column_lines)
  unsigned fillet = 1;     // layers of the fillet (single-action rod)
  unsigned rod = 1;        // layers of the channel below the fillet
  unsigned lower = 1;      // layers from the channel's bottom to the back, shaft
  unsigned lower_head = 1; // the same in the headstock piece of a scarf
  unsigned board = 1;      // layers of the board
  double scale = 1;

  unsigned upper() const { return fillet + rod; }
};

GridCounts grid_counts(const NeckProfile &profile, double resolution);

// Columns and layers of the neck's lower part. A point is (x, column line, level): the level runs
// from 0 at the top over `fillet` (bottom of the fillet) and `upper` (bottom of the channel) to
// `upper + 1` at the back, whatever the number of layers below the channel.
class NeckGrid
{
public:
  NeckGrid(const NeckProfile &profile, const GridCounts &counts);

  // y and depth below the top.
  std::array<double, 2> section_point(double x, const ColumnLine &line, double level) const;
  dealii::Point<3> point(double x, const ColumnLine &line, double level) const;
  // Point of the board at the share `height` of its local thickness.
  dealii::Point<3> board_point(double x, const ColumnLine &line, double height) const;

  unsigned columns() const { return static_cast<unsigned>(lines.size() / 2); }
  bool in_channel(unsigned column) const;

  const NeckProfile &profile;
  const GridCounts counts;
  const std::vector<ColumnLine> lines; // double density, bass to treble
  const double channel_half;

private:
  double channel_share(double x, const ColumnLine &line, const Section &section) const;
  double fillet_share = 0.5; // depth of the fillet over that of the channel
  double channel_depth = 0;
};
} // namespace overbend::mesh
