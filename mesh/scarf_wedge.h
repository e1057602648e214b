// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_grid.h"

#include <array>
#include <map>
#include <vector>

namespace overbend::mesh
{
// The part of the headstock piece that lies under the board: a triangle in the side view, with A
// where the scarf meets the glue plane, B on the glue plane at the nut side, C where the scarf
// meets the back. Three blocks meet at an inner point O; F, E, M lie on BC, CA, AB:
//
//   B----M-----------A        upper layers: B-F, M-O, A-E
//   |  b |     a    /         q = layers below the channel in the shaft: B-M, F-O, C-E
//   F----O-------E-'          p = the same in the headstock: M-A, O-E, F-C
//   |  c     _.-'
//   C-----'-'
//
// Every column line has its own triangle in the plane (x, level), as the scarf meets the layers
// elsewhere there; scarf points are solved for, so the scarf is exactly plane.
class ScarfWedge
{
public:
  explicit ScarfWedge(const NeckGrid &grid);

  // x at which the scarf plane cuts a level of a column line (index into grid.lines).
  double scarf_x(unsigned line, double level) const;
  // x of the edge BC.
  double left_x(unsigned line, double level) const;

  // (x, level) of the nodes of blocks a, b, c, indices of double density as drawn: i to the right,
  // k upwards.
  std::array<double, 2> block_a(unsigned line, unsigned i, unsigned k) const;
  std::array<double, 2> block_b(unsigned line, unsigned i, unsigned k) const;
  std::array<double, 2> block_c(unsigned line, unsigned i, unsigned k) const;

  // x of the nodes of edge AB from B to A, double density: the board's lower edge.
  std::vector<double> top_stations() const;

  double left_top = 0; // x of B: 0, or the start of the scarf where that is well off the nut

private:
  struct Corners
  {
    std::array<double, 2> a, b, c, e, f, m, o;
  };

  double solve(unsigned line, double level) const;
  // Edge MO at the layer that meets the scarf at `level`; the fillet keeps its depth.
  std::array<double, 2> inner_edge(unsigned line, double level) const;
  double top_x(double share) const; // edge MA

  const NeckGrid &grid_;
  std::vector<Corners> corners_;
  double m_x_ = 0;
  mutable std::map<std::pair<unsigned, double>, double> solved_;
};
} // namespace overbend::mesh
