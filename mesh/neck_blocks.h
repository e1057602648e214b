// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/hex_mesh.h"
#include "mesh/neck_grid.h"

namespace overbend::mesh
{
// Adds all blocks of a neck: headstock, scarf wedge, shaft with heel or bolt-on end, board.
void add_neck_blocks(const NeckGrid &grid, HexMesh &mesh);
} // namespace overbend::mesh
