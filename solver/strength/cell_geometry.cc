// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strength/cell_geometry.h"

#include "mesh/names.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace overbend::solver
{
namespace
{
// Lexicographic nodes in the middle of a cell and of its sides: low and high of each direction.
constexpr unsigned middle_node = 13;
constexpr std::array<unsigned, 6> side_node{12, 14, 10, 16, 4, 22};

double dot(const Vec3 &a, const Vec3 &b)
{
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Vec3 cross(const Vec3 &a, const Vec3 &b)
{
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

void set_edges(const Space &space, unsigned cell, CellGeometry &geometry)
{
  const auto &node = space.cell_node[cell];
  geometry.middle = space.position[node[middle_node]];
  for (unsigned d = 0; d < 3; ++d) {
    const Vec3 &low = space.position[node[side_node[2 * d]]],
               &high = space.position[node[side_node[2 * d + 1]]];
    for (unsigned i = 0; i < 3; ++i)
      geometry.edge[d][i] = (high[i] - low[i]) / 2;
    geometry.size[d] = 2 * std::sqrt(dot(geometry.edge[d], geometry.edge[d]));
  }
  for (unsigned d = 0; d < 3; ++d) {
    Vec3 row = cross(geometry.edge[(d + 1) % 3], geometry.edge[(d + 2) % 3]);
    const double det = dot(geometry.edge[d], row);
    for (double &x : row)
      x /= det;
    geometry.to_t[d] = row;
  }
}

// Lowest and highest of a number over the nodes of a cell.
template <typename Function>
std::array<double, 2> range(const Space &space, unsigned cell, Function &&number)
{
  std::array<double, 2> all{HUGE_VAL, -HUGE_VAL};
  for (const unsigned n : space.cell_node[cell]) {
    const double x = number(space.position[n]);
    all = {std::min(all[0], x), std::max(all[1], x)};
  }
  return all;
}
} // namespace

Vec3 CellGeometry::t_of(const Vec3 &offset) const
{
  return {dot(to_t[0], offset), dot(to_t[1], offset), dot(to_t[2], offset)};
}

double CellGeometry::volume() const
{
  return 8 * std::abs(dot(edge[0], cross(edge[1], edge[2])));
}

std::vector<CellGeometry> cell_geometry(const Space &space)
{
  std::vector<CellGeometry> all(space.n_cells);
  std::map<unsigned, std::array<unsigned, 2>> first_at; // cell and side, by the side's middle node
  for (unsigned c = 0; c < space.n_cells; ++c) {
    set_edges(space, c, all[c]);
    all[c].neighbour.fill(-1);
    for (unsigned side = 0; side < 6; ++side) {
      const auto [other, is_new] =
          first_at.emplace(space.cell_node[c][side_node[side]], std::array<unsigned, 2>{c, side});
      if (is_new)
        continue;
      all[c].neighbour[side] = int(other->second[0]);
      all[other->second[0]].neighbour[other->second[1]] = int(c);
    }
  }
  return all;
}

Vec3 place_in(const Space &space, unsigned cell, const Vec3 &t)
{
  double shape[3][3];
  for (unsigned d = 0; d < 3; ++d) {
    shape[d][0] = t[d] * (t[d] - 1) / 2;
    shape[d][1] = 1 - t[d] * t[d];
    shape[d][2] = t[d] * (t[d] + 1) / 2;
  }
  Vec3 place{};
  for (unsigned n = 0; n < nodes_per_cell; ++n) {
    const double w = shape[0][n % 3] * shape[1][n / 3 % 3] * shape[2][n / 9];
    const Vec3 &p = space.position[space.cell_node[cell][n]];
    for (unsigned i = 0; i < 3; ++i)
      place[i] += w * p[i];
  }
  return place;
}

std::vector<LocalDepth> local_depths(const Model &model, const std::vector<CellGeometry> &cell)
{
  const Space &space = model.space;
  std::vector<std::array<double, 2>> x(space.n_cells), height(space.n_cells);
  std::vector<LocalDepth> depth(space.n_cells);
  const auto is_board = [&](unsigned c) { return space.piece[c] == unsigned(mesh::Piece::board); };
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const Vec3 &along = model.piece[space.piece[c]].grain[0]; // in x and z, nearly
    x[c] = range(space, c, [](const Vec3 &p) { return p[0]; });
    height[c] = range(space, c, [&](const Vec3 &p) { return along[0] * p[2] - along[2] * p[0]; });
    const auto rise = [&](unsigned d) {
      return std::abs(along[0] * cell[c].edge[d][2] - along[2] * cell[c].edge[d][0]) /
             cell[c].size[d];
    };
    for (unsigned d = 1; d < 3; ++d)
      if (rise(d) > rise(depth[c].direction))
        depth[c].direction = d;
  }
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const double here = cell[c].middle[0];
    std::array<double, 2> all = height[c];
    for (unsigned other = 0; other < space.n_cells; ++other)
      if (is_board(other) == is_board(c) && x[other][0] <= here && here <= x[other][1])
        all = {std::min(all[0], height[other][0]), std::max(all[1], height[other][1])};
    depth[c].depth = all[1] - all[0];
  }
  return depth;
}
} // namespace overbend::solver
