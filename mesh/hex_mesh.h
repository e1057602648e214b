// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/names.h"

#include <deal.II/base/point.h>

#include <array>
#include <cstdint>
#include <functional>
#include <unordered_map>
#include <vector>

namespace overbend::mesh
{
// Parts that share no nodes: a glue line lies between two solids, so its nodes are doubled.
enum class Solid : unsigned { shaft = 0, board = 1, headstock = 2 };

// A quadratic hexahedron: 27 nodes, lexicographic (first local direction runs fastest).
// `side` holds the name that each local face (0: first direction at its low end, 1: at its high
// end, 2, 3: second, 4, 5: third) bears where it lies on the boundary.
struct HexCell
{
  std::array<unsigned, 27> node;
  Piece piece;
  std::array<Face, 6> side;
};

// A face on the boundary: the cell, its local face, and its 9 nodes (lexicographic on the face).
struct HexFace
{
  unsigned cell;
  unsigned local;
  Face face;
  std::array<unsigned, 9> node;
};

// A mapped block of cells. `point` gives the nodes on a grid of double density: index 2a is the
// corner and 2a+1 the middle of cell a, so every quadratic node lies on the true geometry.
// The three directions must be right-handed. Cells inside the block that come to lie on the
// boundary, because a neighbour is empty rod space, get the name Face::channel.
struct HexBlock
{
  std::array<unsigned, 3> cells;
  std::function<dealii::Point<3>(unsigned, unsigned, unsigned)> point;
  std::function<Piece(unsigned, unsigned, unsigned)> piece;
  Solid solid = Solid::shaft;
  std::array<Face, 6> side = {
      {Face::channel, Face::channel, Face::channel, Face::channel, Face::channel, Face::channel}};
};

// Quadratic hexahedra collected from mapped blocks. Blocks of one solid are joined where their
// nodes coincide (within 0.1 micrometre).
class HexMesh
{
public:
  void add(const HexBlock &block);

  // Drops the cells of Piece::rod_space and the nodes that nothing uses, and finds the named
  // faces of the boundary. Call once, after the last block.
  void finish();

  const std::vector<dealii::Point<3>> &nodes() const { return nodes_; }
  const std::vector<HexCell> &cells() const { return cells_; }
  const std::vector<HexFace> &faces() const { return faces_; }

private:
  unsigned node_at(const dealii::Point<3> &p, Solid solid);
  void drop_rod_space();
  void drop_unused_nodes();
  void find_faces();
  bool weld_inlays_across_scarf();
  void open_glue_over_channel();

  std::vector<dealii::Point<3>> nodes_;
  std::vector<HexCell> cells_;
  std::vector<HexFace> faces_;
  std::unordered_map<std::uint64_t, std::vector<unsigned>> buckets_;
  std::vector<Solid> solid_of_node_;
};

// The 9 nodes of a local face of a hexahedron, as positions among its 27 lexicographic nodes.
std::array<unsigned, 9> face_nodes(unsigned local_face);
} // namespace overbend::mesh
