// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"

namespace overbend::mesh
{
// A straight prismatic beam of one or two layers with the names of a neck, for verification.
// Board 0 < z < board_thickness, shaft below z = 0, x from 0 to length. Lengths in m.
// Ends at x = 0: board_nut_end, headstock_other; at x = length: board_body_end, body.
// Top: board_top (without a board: the top of the shaft). Sides: board_side, back.
struct LayeredBeam
{
  double length = 0.4;
  double width = 0.05;
  double board_thickness = 0.006; // 0: a single block, no board and no glue line
  double shaft_depth = 0.016;
  // Exponent of the back |y/(width/2)|^n + |z/depth|^n = 1; 0: a rectangle with a regular grid.
  double back_exponent = 0;
  unsigned cells_along = 16;
  unsigned cells_across = 2; // rectangle only
  unsigned cells_board = 1, cells_shaft = 2;
  // Section with a back exponent: cells of the core, and of each outer region.
  unsigned cells_core = 2, cells_outer = 2;
  // Size aimed at for the cells at both ends; 0: all cells alike.
  double end_cell = 0;
  bool glue_line = true; // false: board and shaft share their nodes (bonded)
};

// `frets` stations, evenly spaced with 0 at x = 0, on each reading line (sides at 0.86 of the half
// width). All grain frames are the identity: L = x, R = y, T = z; change them as needed.
NeckMesh make_layered_beam(const LayeredBeam &beam, unsigned frets = 20);
} // namespace overbend::mesh
