// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/view/surface.h"

#include <algorithm>
#include <array>
#include <cmath>
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

using Three = std::array<double, 3>;

// Of the face as a whole, by its diagonals: its two triangles may lean apart.
Three normal_of(const Surface &surface, const std::array<unsigned, 4> &quad)
{
  Three p, q, n;
  for (std::size_t i = 0; i < 3; ++i) {
    p[i] = surface.nodes[3 * quad[2] + i] - surface.nodes[3 * quad[0] + i];
    q[i] = surface.nodes[3 * quad[3] + i] - surface.nodes[3 * quad[1] + i];
  }
  for (std::size_t i = 0; i < 3; ++i)
    n[i] = p[(i + 1) % 3] * q[(i + 2) % 3] - p[(i + 2) % 3] * q[(i + 1) % 3];
  const double length = std::sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
  for (double &part : n)
    part /= std::max(length, 1e-300);
  return n;
}

std::vector<unsigned> sharp_edges(const Surface &surface,
                                  const std::vector<std::array<unsigned, 4>> &quads)
{
  const double even = std::cos(40 * 3.14159265358979 / 180);
  std::map<std::pair<unsigned, unsigned>, Three> met;
  std::vector<unsigned> edges;
  for (const auto &quad : quads) {
    const Three n = normal_of(surface, quad);
    for (std::size_t k = 0; k < 4; ++k) {
      const auto ends = std::minmax(quad[k], quad[(k + 1) % 4]);
      const auto [place, fresh] = met.emplace(std::pair(ends.first, ends.second), n);
      const Three &other = place->second;
      if (!fresh && n[0] * other[0] + n[1] * other[1] + n[2] * other[2] < even) {
        edges.push_back(ends.first);
        edges.push_back(ends.second);
      }
    }
  }
  return edges;
}

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
  std::vector<std::array<unsigned, 4>> own_quads;
  for (const Quad &q : quads) {
    const unsigned a = own(q[0]), b = own(q[1]), c = own(q[2]), d = own(q[3]);
    for (const unsigned i : {a, b, c, a, c, d})
      surface.triangles.push_back(i);
    own_quads.push_back({a, b, c, d});
  }
  surface.edges = sharp_edges(surface, own_quads);
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
