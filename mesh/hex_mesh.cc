// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/hex_mesh.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace overbend::mesh
{
namespace
{
// Nodes of neighbouring blocks come from the same functions and agree to rounding; distinct nodes
// are never closer than some 10 micrometres.
constexpr double merge_distance = 1e-7;
constexpr double bucket_size = 1e-4;

std::uint64_t bucket_key(std::int64_t i, std::int64_t j, std::int64_t k)
{
  constexpr std::int64_t offset = 1 << 20;
  return (static_cast<std::uint64_t>(i + offset) << 42) ^
         (static_cast<std::uint64_t>(j + offset) << 21) ^ static_cast<std::uint64_t>(k + offset);
}

std::array<std::int64_t, 3> bucket_of(const dealii::Point<3> &p)
{
  return {{static_cast<std::int64_t>(std::floor(p[0] / bucket_size)),
           static_cast<std::int64_t>(std::floor(p[1] / bucket_size)),
           static_cast<std::int64_t>(std::floor(p[2] / bucket_size))}};
}

std::array<unsigned, 4> corner_key(const HexCell &cell, unsigned local)
{
  const auto f = face_nodes(local);
  std::array<unsigned, 4> key = {
      {cell.node[f[0]], cell.node[f[2]], cell.node[f[6]], cell.node[f[8]]}};
  std::sort(key.begin(), key.end());
  return key;
}
} // namespace

std::array<unsigned, 9> face_nodes(unsigned local_face)
{
  const unsigned stride[3] = {1, 3, 9};
  const unsigned normal = local_face / 2;
  const unsigned a = normal == 0 ? 1 : 0;
  const unsigned b = normal == 2 ? 1 : 2;
  const unsigned start = local_face % 2 == 1 ? 2 * stride[normal] : 0;
  std::array<unsigned, 9> result;
  for (unsigned q = 0; q < 3; ++q)
    for (unsigned p = 0; p < 3; ++p)
      result[3 * q + p] = start + p * stride[a] + q * stride[b];
  return result;
}

unsigned HexMesh::node_at(const dealii::Point<3> &p, Solid solid)
{
  const auto home = bucket_of(p);
  dealii::Point<3> low = p, high = p;
  for (unsigned d = 0; d < 3; ++d) {
    low[d] -= merge_distance;
    high[d] += merge_distance;
  }
  const auto first = bucket_of(low), last = bucket_of(high);
  for (auto i = first[0]; i <= last[0]; ++i)
    for (auto j = first[1]; j <= last[1]; ++j)
      for (auto k = first[2]; k <= last[2]; ++k) {
        const auto found = buckets_.find(bucket_key(i, j, k));
        if (found == buckets_.end())
          continue;
        for (const unsigned n : found->second)
          if (solid_of_node_[n] == solid && nodes_[n].distance(p) < merge_distance)
            return n;
      }
  const auto id = static_cast<unsigned>(nodes_.size());
  nodes_.push_back(p);
  solid_of_node_.push_back(solid);
  buckets_[bucket_key(home[0], home[1], home[2])].push_back(id);
  return id;
}

void HexMesh::add(const HexBlock &block)
{
  const auto &n = block.cells;
  const unsigned ni = 2 * n[0] + 1, nj = 2 * n[1] + 1, nk = 2 * n[2] + 1;
  std::vector<unsigned> id(static_cast<std::size_t>(ni) * nj * nk);
  const auto at = [&](unsigned i, unsigned j, unsigned k) { return i + ni * (j + nj * k); };
  for (unsigned k = 0; k < nk; ++k)
    for (unsigned j = 0; j < nj; ++j)
      for (unsigned i = 0; i < ni; ++i)
        id[at(i, j, k)] = node_at(block.point(i, j, k), block.solid);
  for (unsigned k = 0; k < n[2]; ++k)
    for (unsigned j = 0; j < n[1]; ++j)
      for (unsigned i = 0; i < n[0]; ++i) {
        HexCell cell;
        cell.piece = block.piece(i, j, k);
        for (unsigned l = 0; l < 27; ++l)
          cell.node[l] = id[at(2 * i + l % 3, 2 * j + (l / 3) % 3, 2 * k + l / 9)];
        cell.side.fill(Face::channel);
        const unsigned index[3] = {i, j, k};
        for (unsigned d = 0; d < 3; ++d) {
          if (index[d] == 0)
            cell.side[2 * d] = block.side[2 * d];
          if (index[d] + 1 == n[d])
            cell.side[2 * d + 1] = block.side[2 * d + 1];
        }
        cells_.push_back(cell);
      }
}

void HexMesh::drop_rod_space()
{
  cells_.erase(std::remove_if(cells_.begin(), cells_.end(),
                              [](const HexCell &c) { return c.piece == Piece::rod_space; }),
               cells_.end());
}

void HexMesh::drop_unused_nodes()
{
  constexpr unsigned unused = static_cast<unsigned>(-1);
  std::vector<unsigned> renumbered(nodes_.size(), unused);
  std::vector<dealii::Point<3>> kept;
  for (auto &cell : cells_)
    for (unsigned &n : cell.node) {
      if (renumbered[n] == unused) {
        renumbered[n] = static_cast<unsigned>(kept.size());
        kept.push_back(nodes_[n]);
      }
      n = renumbered[n];
    }
  nodes_ = std::move(kept);
}

void HexMesh::find_faces()
{
  std::map<std::array<unsigned, 4>, unsigned> count;
  faces_.clear();
  for (const auto &cell : cells_)
    for (unsigned f = 0; f < 6; ++f)
      ++count[corner_key(cell, f)];
  for (unsigned c = 0; c < cells_.size(); ++c)
    for (unsigned f = 0; f < 6; ++f) {
      if (count[corner_key(cells_[c], f)] != 1)
        continue;
      HexFace face{c, f, cells_[c].side[f], {}};
      const auto local = face_nodes(f);
      for (unsigned l = 0; l < 9; ++l)
        face.node[l] = cells_[c].node[local[l]];
      faces_.push_back(face);
    }
}

// A bar or fillet is let in after the scarf is glued and runs through it in one length.
bool HexMesh::weld_inlays_across_scarf()
{
  const auto inlay = [&](const HexFace &f) {
    return cells_[f.cell].piece == Piece::bar || cells_[f.cell].piece == Piece::fillet;
  };
  std::vector<const HexFace *> head;
  for (const auto &f : faces_)
    if (f.face == Face::scarf_head && inlay(f))
      head.push_back(&f);
  std::unordered_map<unsigned, unsigned> becomes;
  for (const auto &f : faces_)
    if (f.face == Face::scarf_shaft && inlay(f))
      for (const HexFace *h : head)
        for (const unsigned a : f.node)
          for (const unsigned b : h->node)
            if (nodes_[a].distance(nodes_[b]) < merge_distance)
              becomes[a] = b;
  for (auto &cell : cells_)
    for (unsigned &n : cell.node)
      if (const auto found = becomes.find(n); found != becomes.end())
        n = found->second;
  return !becomes.empty();
}

// Where the channel is empty up to the glue plane the board has nothing to be glued to.
void HexMesh::open_glue_over_channel()
{
  std::vector<dealii::Point<3>> lower;
  for (const auto &f : faces_)
    if (f.face == Face::board_glue_lower)
      lower.push_back(nodes_[f.node[4]]);
  for (auto &f : faces_)
    if (f.face == Face::board_glue_upper) {
      const auto &centre = nodes_[f.node[4]];
      const bool glued = std::any_of(lower.begin(), lower.end(), [&](const auto &p) {
        return p.distance(centre) < merge_distance;
      });
      if (!glued)
        f.face = Face::channel;
    }
}

void HexMesh::finish()
{
  drop_rod_space();
  drop_unused_nodes();
  find_faces();
  if (weld_inlays_across_scarf()) {
    drop_unused_nodes();
    find_faces();
  }
  open_glue_over_channel();
  buckets_.clear();
  solid_of_node_.clear();
}
} // namespace overbend::mesh
