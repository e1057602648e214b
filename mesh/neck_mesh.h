// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/hex_mesh.h"
#include "mesh/names.h"

#include <deal.II/base/tensor.h>

#include <array>
#include <memory>
#include <string>
#include <vector>

// Their headers take longer to read than everything else here: who looks into the triangulation or
// the mapping includes them.
namespace dealii
{
template <int, int>
class MappingQCache;
template <int, int>
class Triangulation;
} // namespace dealii

// The meshed neck, constant once made.
//
// Axes: x from the nut towards the body along the fingerboard's glue plane, y from bass to treble,
// z out of the fingerboard towards the strings; origin on the centre line, at the nut end of the
// board, in the glue plane. This is the only place where they are defined.
namespace overbend::mesh
{
// Rotation from wood axes to model axes: column 0 is L, column 1 is R, column 2 is T.
using GrainFrame = dealii::Tensor<2, 3>;

// Points of the board top under a straightedge: one for each fret, 0 being the nut end.
struct ReadingLine
{
  std::vector<dealii::Point<3>> at_fret;
};

struct NeckMesh
{
  std::shared_ptr<dealii::Triangulation<3, 3>> triangulation; // hexahedra; ids as above
  std::shared_ptr<dealii::MappingQCache<3, 3>> mapping;       // quadratic, the true curved shape
  HexMesh hexes;                                              // the same cells, quadratic nodes
  std::array<GrainFrame, 8> grain;                            // by Piece
  ReadingLine bass, centre, treble;
  // Points on the back along the centre line are found by the solver from Face::back. The posts'
  // places depend on the tuners, so the maker of the mesh leaves these two at the origin; the
  // solver sets them with on_headstock_face (mesh/neck_profile.h).
  dealii::Point<3> bass_post, treble_post; // middle of the posts of each side, on the face
  double board_length = 0;                 // x of the board's body end
  double body_join = 0;                    // x of the body join
  double neck_end = 0;                     // end of the glued board or of a bolt-on's pocket
  double channel_end = 0;                  // the rod channel runs from x = 0 to here; 0: none
};
} // namespace overbend::mesh
