// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/grain_frames.h"
#include "solver/model.h"

#include <functional>

// Where the woods of a laminated shaft are.
namespace overbend::solver
{
// L, R, T of a frame of the mesh as vectors.
std::array<Vec3, 3> columns(const mesh::GrainFrame &frame);

// Asked of each quadrature point and of the middle of each cell.
struct StripPlaces
{
  // Index of the strip in `wood`, or none where the cell's own piece is meant; y in m.
  std::function<std::optional<unsigned>(mesh::Piece piece, double y)> strip;
  // The grain of that place; x is that of the cell's middle, so that a cell has one frame a strip.
  std::function<mesh::GrainFrame(mesh::Piece piece, double x, double y)> grain;
};

// The woods of strips laid out over the points and cells of a space.
StripModel lay_strips(const Space &space, const StripPlaces &places, std::vector<PieceModel> wood);

// The same for a neck.
StripModel lay_strips(const Space &space, const mesh::NeckGrain &grain,
                      std::vector<PieceModel> wood);
} // namespace overbend::solver
