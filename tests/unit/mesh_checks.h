// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/mesh_report.h"
#include "tests/unit/mesh_neck_volumes.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

// Claims that hold for the mesh of any neck.
namespace overbend::tests
{
using Key = std::array<long, 3>;

inline Key key_of(const dealii::Point<3> &p, double unit)
{
  return {{std::lround(p[0] / unit), std::lround(p[1] / unit), std::lround(p[2] / unit)}};
}

// Volumes by piece against the integrals of the profile, relative difference at most `tolerance`.
inline void expect_volumes(const mesh::NeckMesh &mesh, const cases::NeckShape &shape,
                           double tolerance)
{
  using mesh::Piece;
  const mesh::NeckProfile neck(shape);
  auto volume = mesh::report(mesh).volume;
  const auto &rod = shape.rod;
  double taken = 0; // from the wood of shaft and headstock
  if (neck.has_channel)
    taken = channel_volume(neck, 0, rod.channel_depth);
  EXPECT_NEAR(volume[Piece::board] / board_volume(neck), 1, tolerance);
  const double wood = volume[Piece::shaft] + volume[Piece::headstock];
  EXPECT_NEAR(wood / (lower_volume(neck) - taken), 1, tolerance);
  double head_taken = 0;
  if (neck.has_scarf && neck.has_channel)
    head_taken = rod.channel_width * rod.channel_depth *
                 (neck.scarf_top - 0.5 * rod.channel_depth / neck.scarf_slope);
  EXPECT_NEAR(volume[Piece::headstock] / (headstock_volume(neck) - head_taken), 1, tolerance);
  if (rod.kind == cases::RodKind::single_action) {
    EXPECT_NEAR(volume[Piece::fillet] / channel_volume(neck, 0, rod.fillet_depth), 1, tolerance);
  }
  if (rod.kind == cases::RodKind::bonded_bar) {
    EXPECT_NEAR(volume[Piece::bar] / channel_volume(neck, 0, rod.channel_depth), 1, tolerance);
  }
}

// Every node has a mirror image in y, to 1e-12 m.
inline void expect_symmetric(const mesh::NeckMesh &mesh)
{
  std::map<Key, std::vector<dealii::Point<3>>> nodes;
  for (const auto &p : mesh.hexes.nodes())
    nodes[key_of({p[0], 0, p[2]}, 1e-6)].push_back(p);
  std::size_t alone = 0;
  for (const auto &p : mesh.hexes.nodes()) {
    const dealii::Point<3> image(p[0], -p[1], p[2]);
    const auto &near = nodes[key_of({p[0], 0, p[2]}, 1e-6)];
    alone += std::none_of(near.begin(), near.end(),
                          [&](const auto &q) { return image.distance(q) < 1e-12; });
  }
  EXPECT_EQ(alone, 0u);
}

// Each face of one side lies on a face of the other side, node on node (1e-12 m), sharing none
// of its nodes but those listed in `welded`.
inline std::size_t expect_pairs(const mesh::NeckMesh &mesh, mesh::Face a, mesh::Face b)
{
  std::map<Key, const mesh::HexFace *> other;
  for (const auto &f : mesh.hexes.faces())
    if (f.face == b)
      other[key_of(mesh.hexes.nodes()[f.node[4]], 1e-7)] = &f;
  std::size_t pairs = 0;
  for (const auto &f : mesh.hexes.faces()) {
    if (f.face != a)
      continue;
    const auto found = other.find(key_of(mesh.hexes.nodes()[f.node[4]], 1e-7));
    if (found == other.end()) {
      ADD_FAILURE() << "a face of " << name(a) << " has no partner";
      continue;
    }
    ++pairs;
    EXPECT_NE(f.node[4], found->second->node[4]);
    for (const unsigned n : f.node) {
      double nearest = 1;
      for (const unsigned m : found->second->node)
        nearest = std::min(nearest, mesh.hexes.nodes()[n].distance(mesh.hexes.nodes()[m]));
      EXPECT_LT(nearest, 1e-12);
    }
  }
  EXPECT_EQ(pairs, other.size());
  return pairs;
}
} // namespace overbend::tests
