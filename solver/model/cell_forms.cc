// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/cell_forms.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using PointShapes = std::array<std::array<std::array<double, 4>, nodes_per_cell>, points_per_cell>;

// Value and derivatives in the cell's own directions: shapes[point][node][0: value, 1..3].
const PointShapes &point_shapes()
{
  static const PointShapes shapes = [] {
    PointShapes made{};
    const LineShapes &s = line_shapes();
    for (unsigned q = 0; q < points_per_cell; ++q)
      for (unsigned a = 0; a < nodes_per_cell; ++a) {
        const unsigned p[3] = {q % 3, q / 3 % 3, q / 9}, n[3] = {a % 3, a / 3 % 3, a / 9};
        for (unsigned k = 0; k < 4; ++k) {
          made[q][a][k] = 1;
          for (unsigned d = 0; d < 3; ++d)
            made[q][a][k] *= k == d + 1 ? s.slope[p[d]][n[d]] : s.value[p[d]][n[d]];
        }
      }
    return made;
  }();
  return shapes;
}

// Gradients of all shape functions at a quadrature point, and their part along the grain.
void gradients(const std::array<double, 9> &inverse, const Vec3 &grain, unsigned q,
               double gradient[nodes_per_cell][3], double along[nodes_per_cell])
{
  const auto &shape = point_shapes()[q];
  for (unsigned a = 0; a < nodes_per_cell; ++a) {
    for (unsigned i = 0; i < 3; ++i)
      gradient[a][i] =
          shape[a][1] * inverse[i] + shape[a][2] * inverse[3 + i] + shape[a][3] * inverse[6 + i];
    along[a] = grain[0] * gradient[a][0] + grain[1] * gradient[a][1] + grain[2] * gradient[a][2];
  }
}
} // namespace

CellForms cell_forms(const Space &space, unsigned cell, const Vec3 &grain)
{
  CellForms forms;
  double gradient[nodes_per_cell][3], along[nodes_per_cell];
  for (unsigned q = 0; q < points_per_cell; ++q) {
    const std::size_t point = std::size_t(cell) * points_per_cell + q;
    const auto &shape = point_shapes()[q];
    gradients(space.inverse_jacobian[point], grain, q, gradient, along);
    const double volume = space.jxw[point];
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      for (unsigned b = 0; b < nodes_per_cell; ++b) {
        const unsigned ab = a * nodes_per_cell + b;
        forms.mass[ab] += volume * shape[a][0] * shape[b][0];
        forms.spread[ab] +=
            volume * (gradient[a][0] * gradient[b][0] + gradient[a][1] * gradient[b][1] +
                      gradient[a][2] * gradient[b][2]);
        forms.along[ab] += volume * along[a] * along[b];
      }
  }
  return forms;
}

std::vector<double> node_volumes(const Space &space)
{
  std::vector<double> volume(space.n_nodes, 0.);
  for (unsigned c = 0; c < space.n_cells; ++c)
    for (unsigned q = 0; q < points_per_cell; ++q)
      for (unsigned a = 0; a < nodes_per_cell; ++a)
        volume[space.cell_node[c][a]] +=
            space.jxw[std::size_t(c) * points_per_cell + q] * point_shapes()[q][a][0];
  if (!std::all_of(volume.begin(), volume.end(), [](double v) { return v > 0; }))
    throw std::runtime_error("The mesh is so distorted that a node stands for no volume");
  return volume;
}
} // namespace overbend::solver
