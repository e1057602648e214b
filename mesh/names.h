// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

// The names and ids of the pieces and faces of a meshed neck. This is the only place where they
// are defined.
namespace overbend::mesh
{
// Pieces of the neck: the material id of a cell.
enum class Piece : unsigned {
  shaft = 1,
  board = 2,
  headstock = 3,
  fillet = 4,
  bar = 5,
  rod_space = 6
};

// Named faces: the boundary id of a face. A glue line has two sides with doubled nodes.
enum class Face : unsigned {
  back = 1,          // back and sides of shaft and heel
  board_top = 2,     // where frets, bar and straightedge sit
  board_side = 3,    // long sides of the board
  board_nut_end = 4, // end of the board that bears on the nut
  board_body_end = 5,
  body = 6,         // end of the heel (or bolt-on pocket: bottom and end) held by the body
  tongue_under = 7, // underside of the board over the body
  headstock_face = 8,
  headstock_other = 9,
  channel = 10,          // walls of an empty channel, also the underside of the board over it
  board_glue_upper = 20, // side of the board
  board_glue_lower = 21, // side of the shaft (or of the headstock piece over a scarf)
  scarf_head = 22,       // side of the headstock piece
  scarf_shaft = 23,      // side of the shaft
};

std::string name(Piece piece);
std::string name(Face face);
} // namespace overbend::mesh
