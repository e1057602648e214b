// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/names.h"

// The parts of a neck whose use of strength is told each by itself.
namespace overbend::solver
{
enum class Region {
  shaft,
  board,
  headstock,
  fillet,
  bar,
  headstock_root, // the wood of shaft and headstock around the nut
  board_bond,
  scarf_bond,
  tongue_bond,
  under_the_cradle // the back, pressed by the cradle's pad
};

// "headstock root", "board glue line": stands after "the" in a sentence, is the name in files.
const char *name(Region region);

// Of the wood of a piece at x (m). The root is where head pull bends short grain and the rod's
// pocket sits, from 30 mm behind the nut to 10 mm before it [E].
Region region_of(mesh::Piece piece, double x);

// Of a glue line, by its index in Model::glue_line.
Region region_of_line(unsigned line);

bool is_glue_line(Region region);
} // namespace overbend::solver
