// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strength/region.h"

#include "solver/model/build_model.h"

#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double root_from = -30e-3, root_to = 10e-3; // m
}

const char *name(Region region)
{
  switch (region) {
  case Region::shaft:
    return "shaft";
  case Region::board:
    return "board";
  case Region::headstock:
    return "headstock";
  case Region::fillet:
    return "fillet";
  case Region::bar:
    return "bar";
  case Region::headstock_root:
    return "headstock root";
  case Region::board_bond:
    return "board glue line";
  case Region::scarf_bond:
    return "scarf glue line";
  case Region::tongue_bond:
    return "tongue glue line";
  case Region::under_the_cradle:
    return "back under the cradle";
  }
  throw std::logic_error("a region without a name");
}

Region region_of(mesh::Piece piece, double x)
{
  const bool near_nut = x > root_from && x < root_to;
  switch (piece) {
  case mesh::Piece::shaft:
    return near_nut ? Region::headstock_root : Region::shaft;
  case mesh::Piece::headstock:
    return near_nut ? Region::headstock_root : Region::headstock;
  case mesh::Piece::board:
    return Region::board;
  case mesh::Piece::fillet:
    return Region::fillet;
  case mesh::Piece::bar:
    return Region::bar;
  case mesh::Piece::rod_space:
    break;
  }
  throw std::logic_error("a piece without wood has no region");
}

Region region_of_line(unsigned line)
{
  switch (line) {
  case board_line:
    return Region::board_bond;
  case scarf_line:
    return Region::scarf_bond;
  case tongue_line:
    return Region::tongue_bond;
  }
  throw std::logic_error("a glue line without a region");
}

bool is_glue_line(Region region)
{
  return region == Region::board_bond || region == Region::scarf_bond ||
         region == Region::tongue_bond;
}
} // namespace overbend::solver
