// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/names.h"

namespace overbend::mesh
{
std::string name(Piece piece)
{
  switch (piece) {
  case Piece::shaft:
    return "shaft";
  case Piece::board:
    return "board";
  case Piece::headstock:
    return "headstock";
  case Piece::fillet:
    return "fillet";
  case Piece::bar:
    return "bar";
  case Piece::rod_space:
    return "rod_space";
  }
  return "unnamed piece";
}

std::string name(Face face)
{
  switch (face) {
  case Face::back:
    return "back";
  case Face::board_top:
    return "board_top";
  case Face::board_side:
    return "board_side";
  case Face::board_nut_end:
    return "board_nut_end";
  case Face::board_body_end:
    return "board_body_end";
  case Face::body:
    return "body";
  case Face::tongue_under:
    return "tongue_under";
  case Face::headstock_face:
    return "headstock_face";
  case Face::headstock_other:
    return "headstock_other";
  case Face::channel:
    return "channel";
  case Face::board_glue_upper:
    return "board_glue_upper";
  case Face::board_glue_lower:
    return "board_glue_lower";
  case Face::scarf_head:
    return "scarf_head";
  case Face::scarf_shaft:
    return "scarf_shaft";
  }
  return "unnamed face";
}
} // namespace overbend::mesh
