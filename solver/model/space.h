// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <map>
#include <vector>

namespace overbend::mesh
{
struct NeckMesh;
}

// The discrete space: quadratic hexahedra, one node for each support point of the scalar element.
//
// Temperature has one unknown a node (its index), displacement three (3 * node + component). The
// arrays here are made once from the mesh; nothing else in the solver looks at the triangulation.
namespace overbend::solver
{
using Vec3 = std::array<double, 3>;

constexpr unsigned nodes_per_cell = 27;  // lexicographic, x fastest in the cell's own directions
constexpr unsigned points_per_cell = 27; // 3 x 3 x 3 Gauss points, in the same order
constexpr unsigned nodes_per_face = 9;

// A boundary face with the integration points that sit on its nodes (Gauss-Lobatto): positive
// weights, so tractions of interfaces and contact do not oscillate.
struct BoundaryFace
{
  unsigned cell;
  std::array<unsigned, nodes_per_face> node;
  std::array<double, nodes_per_face> weight; // area, m^2
  std::array<Vec3, nodes_per_face> normal;   // outward
};

struct Space
{
  unsigned n_nodes = 0;
  unsigned n_cells = 0;
  std::vector<Vec3> position; // of each node
  std::vector<std::array<unsigned, nodes_per_cell>> cell_node;
  std::vector<unsigned> piece; // material id of each cell
  // At each quadrature point: inverse of the Jacobian d(unit)/d(x) (row: unit direction) and the
  // weight times the determinant, m^3.
  std::vector<std::array<double, 9>> inverse_jacobian;
  std::vector<double> jxw;
  std::map<unsigned, std::vector<BoundaryFace>> boundary; // by boundary id

  unsigned n_dofs() const { return 3 * n_nodes; }
};

// Builds the space; throws std::runtime_error naming the place if a Jacobian is not positive at a
// quadrature point.
Space make_space(const mesh::NeckMesh &mesh);

// One-dimensional quadratic shape functions (nodes 0, 1/2, 1) and their derivatives at the three
// Gauss points of [0, 1]: value[point][node].
struct LineShapes
{
  double value[3][3];
  double slope[3][3];
  double weight[3];
};
const LineShapes &line_shapes();

// Value at every quadrature point of a nodal field, n_cells * 27 numbers.
std::vector<double> at_points(const Space &space, const std::vector<double> &nodal);
} // namespace overbend::solver
