// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/view/surface.h"

#include <algorithm>
#include <array>
#include <map>

namespace overbend::viz
{
namespace
{
using Quad = std::array<int, 4>;

// Corners of the six faces of VTK's hexahedron, seen from outside against the clock. Source: class
// documentation of vtkHexahedron, picture.
const std::array<Quad, 6> faces = {Quad{0, 3, 2, 1}, Quad{4, 5, 6, 7}, Quad{0, 1, 5, 4},
                                   Quad{1, 2, 6, 5}, Quad{2, 3, 7, 6}, Quad{3, 0, 4, 7}};
constexpr std::size_t nodes_per_cell = 27, nodes_per_face = 9;

Surface triangles_of(const std::vector<Quad> &quads, const std::vector<double> &nodes)
{
  Surface surface;
  std::map<int, unsigned> number;
  const auto own = [&](int node) {
    const auto [place, fresh] = number.emplace(node, unsigned(surface.source.size()));
    if (fresh) {
      surface.source.push_back(unsigned(node));
      for (unsigned i = 0; i < 3; ++i)
        surface.nodes.push_back(nodes.at(3 * std::size_t(node) + i));
    }
    return place->second;
  };
  for (const Quad &q : quads) {
    const unsigned a = own(q[0]), b = own(q[1]), c = own(q[2]), d = own(q[3]);
    for (const unsigned i : {a, b, c, a, c, d})
      surface.triangles.push_back(i);
  }
  return surface;
}
} // namespace

Surface skin(const solver::MeshData &mesh)
{
  std::map<Quad, std::pair<Quad, int>> seen; // by sorted corners: the face, and how often
  for (std::size_t cell = 0; cell < mesh.n_cells(); ++cell)
    for (const Quad &face : faces) {
      Quad corners;
      for (std::size_t i = 0; i < 4; ++i)
        corners[i] = mesh.cells.at(cell * nodes_per_cell + std::size_t(face[i]));
      Quad key = corners;
      std::sort(key.begin(), key.end());
      auto &entry = seen[key];
      entry.first = corners;
      ++entry.second;
    }
  std::vector<Quad> outer;
  for (const auto &[key, entry] : seen)
    if (entry.second == 1)
      outer.push_back(entry.first);
  return triangles_of(outer, mesh.nodes);
}

Surface glue_skin(const solver::MeshData &mesh)
{
  std::vector<Quad> quads;
  for (const auto &line : mesh.glue.lines)
    for (std::size_t face = 0; face < line.n_faces(); ++face) {
      const auto first = line.faces.begin() + long(face * nodes_per_face);
      quads.push_back({first[0], first[1], first[2], first[3]});
    }
  return triangles_of(quads, mesh.glue.nodes);
}
} // namespace overbend::viz
