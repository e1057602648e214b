// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deal.II/base/tensor.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>

#include <array>
#include <memory>
#include <string>
#include <vector>

// The meshed neck, constant once made.
//
// Axes: x from the nut towards the body along the fingerboard's glue plane, y from bass to treble,
// z out of the fingerboard towards the strings; origin on the centre line, at the nut end of the
// board, in the glue plane. This is the only place where they are defined.
namespace overbend::mesh
{
// Pieces of the neck: the material id of a cell.
enum class Piece : unsigned
{ shaft = 1, board = 2, headstock = 3, fillet = 4, bar = 5, rod_space = 6 };

// Named faces: the boundary id of a face. A glue line has two sides with doubled nodes.
enum class Face : unsigned
{
  back = 1,          // back and sides of shaft and heel
  board_top = 2,     // where frets, bar and straightedge sit
  board_side = 3,    // long sides of the board
  board_nut_end = 4, // end of the board that bears on the nut
  board_body_end = 5,
  body = 6,          // end of the heel (or bolt-on pocket: bottom and end) held by the body
  tongue_under = 7,  // underside of the board over the body
  headstock_face = 8,
  headstock_other = 9,
  channel = 10,      // walls of an empty channel
  board_glue_upper = 20,  // side of the board
  board_glue_lower = 21,  // side of the shaft (or of the headstock piece over a scarf)
  scarf_head = 22,        // side of the headstock piece
  scarf_shaft = 23,       // side of the shaft
};

std::string name(Piece piece);
std::string name(Face face);

// Rotation from wood axes to model axes: column 0 is L, column 1 is R, column 2 is T.
using GrainFrame = dealii::Tensor<2, 3>;

// Points of the board top under a straightedge: one for each fret, 0 being the nut end.
struct ReadingLine
{
  std::vector<dealii::Point<3>> at_fret;
};

struct NeckMesh
{
  dealii::Triangulation<3> triangulation;              // hexahedra; ids as above
  std::unique_ptr<dealii::MappingQCache<3>> mapping;   // quadratic, the true curved shape
  std::array<GrainFrame, 8> grain;                     // by Piece
  ReadingLine bass, centre, treble;
  // Points on the back along the centre line, every millimetre or so, are found by the solver from
  // Face::back; the following are single points on the surface.
  dealii::Point<3> bass_post, treble_post;             // middle of the posts of each side, on the face
  double board_length = 0;                             // x of the board's body end
  double body_join = 0;                                // x of the body join
};
}  // namespace overbend::mesh
