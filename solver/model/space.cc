// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/space.h"

#include "mesh/neck_mesh.h"

#include <deal.II/base/polynomial.h>
#include <deal.II/base/quadrature_lib.h>
#include <deal.II/dofs/dof_handler.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_tools.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>

#include <cmath>
#include <sstream>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
LineShapes make_line_shapes()
{
  LineShapes s{};
  const dealii::QGauss<1> gauss(3);
  const auto shapes = dealii::Polynomials::generate_complete_Lagrange_basis(
      dealii::QGaussLobatto<1>(3).get_points());
  std::vector<double> value_and_slope(2);
  for (unsigned q = 0; q < 3; ++q) {
    s.weight[q] = gauss.weight(q);
    for (unsigned a = 0; a < 3; ++a) {
      shapes[a].value(gauss.point(q)[0], value_and_slope);
      s.value[q][a] = value_and_slope[0];
      s.slope[q][a] = value_and_slope[1];
    }
  }
  return s;
}

Vec3 as_array(const dealii::Point<3> &p)
{
  return {p[0], p[1], p[2]};
}
Vec3 as_array(const dealii::Tensor<1, 3> &p)
{
  return {p[0], p[1], p[2]};
}

std::string place(const dealii::Point<3> &p)
{
  std::ostringstream out;
  out << "x = " << 1e3 * p[0] << " mm, y = " << 1e3 * p[1] << " mm, z = " << 1e3 * p[2] << " mm";
  return out.str();
}

void add_cell(Space &space, const dealii::FEValues<3> &values)
{
  for (unsigned q = 0; q < points_per_cell; ++q) {
    if (!(values.JxW(q) > 0))
      throw std::runtime_error("The mesh is folded over near " + place(values.quadrature_point(q)));
    const auto inverse = values.inverse_jacobian(q);
    std::array<double, 9> flat{};
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        flat[3 * i + j] = inverse[i][j];
    space.inverse_jacobian.push_back(flat);
    space.jxw.push_back(values.JxW(q));
  }
}

BoundaryFace make_face(const dealii::FEFaceValues<3> &values, unsigned cell,
                       const std::array<unsigned, nodes_per_cell> &nodes,
                       const std::vector<Vec3> &position)
{
  BoundaryFace face{};
  face.cell = cell;
  for (unsigned q = 0; q < nodes_per_face; ++q) {
    face.weight[q] = values.JxW(q);
    face.normal[q] = as_array(values.normal_vector(q));
    // The Lobatto points are the face's nodes: the nearest node is the node.
    const Vec3 x = as_array(values.quadrature_point(q));
    double best = 1e300;
    for (const unsigned n : nodes) {
      const Vec3 &p = position[n];
      const double d =
          std::pow(p[0] - x[0], 2) + std::pow(p[1] - x[1], 2) + std::pow(p[2] - x[2], 2);
      if (d < best) {
        best = d;
        face.node[q] = n;
      }
    }
  }
  return face;
}
} // namespace

const LineShapes &line_shapes()
{
  static const LineShapes shapes = make_line_shapes();
  return shapes;
}

Space make_space(const mesh::NeckMesh &mesh)
{
  const dealii::Triangulation<3> &triangulation = *mesh.triangulation;
  const dealii::Mapping<3> &mapping = *mesh.mapping;
  const dealii::FE_Q<3> element(2);
  dealii::DoFHandler<3> dofs(triangulation);
  dofs.distribute_dofs(element);
  const auto lexicographic = dealii::FETools::lexicographic_to_hierarchic_numbering<3>(2);

  dealii::FEValues<3> values(mapping, element, dealii::QGauss<3>(3),
                             dealii::update_inverse_jacobians | dealii::update_JxW_values |
                                 dealii::update_quadrature_points);
  dealii::FEFaceValues<3> face_values(mapping, element, dealii::QGaussLobatto<2>(3),
                                      dealii::update_JxW_values | dealii::update_normal_vectors |
                                          dealii::update_quadrature_points);
  const dealii::Quadrature<3> support(element.get_unit_support_points());
  dealii::FEValues<3> support_values(mapping, element, support, dealii::update_quadrature_points);

  Space space;
  space.n_nodes = dofs.n_dofs();
  space.n_cells = triangulation.n_active_cells();
  space.position.resize(space.n_nodes);
  std::vector<dealii::types::global_dof_index> indices(nodes_per_cell);
  for (const auto &cell : dofs.active_cell_iterators()) {
    cell->get_dof_indices(indices);
    values.reinit(cell);
    support_values.reinit(cell);
    std::array<unsigned, nodes_per_cell> nodes{};
    for (unsigned a = 0; a < nodes_per_cell; ++a) {
      nodes[a] = indices[lexicographic[a]];
      space.position[indices[a]] = as_array(support_values.quadrature_point(a));
    }
    const unsigned index = space.cell_node.size();
    space.cell_node.push_back(nodes);
    space.piece.push_back(cell->material_id());
    add_cell(space, values);
    for (const unsigned f : cell->face_indices())
      if (cell->face(f)->at_boundary()) {
        face_values.reinit(cell, f);
        space.boundary[cell->face(f)->boundary_id()].push_back(
            make_face(face_values, index, nodes, space.position));
      }
  }
  return space;
}

std::vector<double> at_points(const Space &space, const std::vector<double> &nodal)
{
  const LineShapes &s = line_shapes();
  double shape[points_per_cell][nodes_per_cell];
  for (unsigned q = 0; q < points_per_cell; ++q)
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      shape[q][a] = s.value[q % 3][a % 3] * s.value[q / 3 % 3][a / 3 % 3] * s.value[q / 9][a / 9];

  std::vector<double> result(std::size_t(space.n_cells) * points_per_cell);
  for (unsigned c = 0; c < space.n_cells; ++c)
    for (unsigned q = 0; q < points_per_cell; ++q) {
      double sum = 0;
      for (unsigned a = 0; a < nodes_per_cell; ++a)
        sum += shape[q][a] * nodal[space.cell_node[c][a]];
      result[std::size_t(c) * points_per_cell + q] = sum;
    }
  return result;
}
} // namespace overbend::solver
