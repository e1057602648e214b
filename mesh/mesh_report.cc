// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/mesh_report.h"

#include "mesh/gmsh_model.h"
#include "mesh/shape_error.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/fe/fe_nothing.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>
#include <deal.II/grid/tria_accessor.h>
#include <deal.II/grid/tria_iterator.h>

#include <cmath>
#include <cstdio>

namespace overbend::mesh
{
namespace
{
using dealii::Point;

[[noreturn]] void refuse(const Point<3> &place, const NeckMesh &mesh)
{
  throw ShapeError("the mesh turns inside out near " + describe_place(place, mesh),
                   "check the sizes of the neck there for a sudden change or a thin place");
}

double scaled(const dealii::DerivativeForm<1, 3, 3> &jacobian)
{
  const dealii::Tensor<2, 3> j(jacobian);
  const auto t = dealii::transpose(j);
  return dealii::determinant(j) / (t[0].norm() * t[1].norm() * t[2].norm());
}

void check_cells(const NeckMesh &mesh, MeshReport &result)
{
  const dealii::FE_Nothing<3> fe;
  dealii::FEValues<3> values(*mesh.mapping, fe, dealii::QGauss<3>(3),
                             dealii::update_jacobians | dealii::update_quadrature_points);
  const auto &weight = values.get_quadrature().get_weights();
  result.least_scaled_jacobian = 1;
  for (const auto &cell : mesh.triangulation->active_cell_iterators()) {
    values.reinit(cell);
    for (unsigned q = 0; q < weight.size(); ++q) {
      const double s = scaled(values.jacobian(q));
      if (!(s > 0))
        refuse(values.quadrature_point(q), mesh);
      if (s < result.least_scaled_jacobian) {
        result.least_scaled_jacobian = s;
        result.worst_place = values.quadrature_point(q);
      }
      result.volume[static_cast<Piece>(cell->material_id())] +=
          values.jacobian(q).determinant() * weight[q];
    }
  }
}

// At the nodes of these faces springs, heat and contact are integrated.
bool checked_at_nodes(Face face)
{
  return face == Face::board_glue_upper || face == Face::board_glue_lower ||
         face == Face::scarf_head || face == Face::scarf_shaft || face == Face::board_top;
}

void check_faces(const NeckMesh &mesh, MeshReport &result)
{
  const dealii::FE_Nothing<3> fe;
  dealii::FEFaceValues<3> gauss(*mesh.mapping, fe, dealii::QGauss<2>(3),
                                dealii::update_JxW_values | dealii::update_quadrature_points);
  dealii::FEFaceValues<3> nodal(*mesh.mapping, fe, dealii::QGaussLobatto<2>(3),
                                dealii::update_JxW_values | dealii::update_quadrature_points);
  for (const auto &cell : mesh.triangulation->active_cell_iterators())
    for (const unsigned f : cell->face_indices()) {
      if (!cell->face(f)->at_boundary())
        continue;
      const auto face = static_cast<Face>(cell->face(f)->boundary_id());
      gauss.reinit(cell, f);
      ++result.faces[face];
      for (unsigned q = 0; q < gauss.n_quadrature_points; ++q) {
        if (!(gauss.JxW(q) > 0))
          refuse(gauss.quadrature_point(q), mesh);
        result.area[face] += gauss.JxW(q);
      }
      if (!checked_at_nodes(face))
        continue;
      nodal.reinit(cell, f);
      for (unsigned q = 0; q < nodal.n_quadrature_points; ++q)
        if (!(nodal.JxW(q) > 0))
          refuse(nodal.quadrature_point(q), mesh);
    }
}
} // namespace

MeshReport report(const NeckMesh &mesh)
{
  MeshReport result;
  result.cells = mesh.hexes.cells().size();
  result.nodes = mesh.hexes.nodes().size();
  result.unknowns = 3 * result.nodes;
  check_cells(mesh, result);
  check_faces(mesh, result);
  return result;
}

void export_gmsh(const NeckMesh &mesh, const std::string &path)
{
  GmshModel(mesh).write(path);
}

std::string describe_place(const Point<3> &place, const NeckMesh &mesh)
{
  const bool near_centre = std::abs(place[1]) < 5e-3;
  const std::string side = near_centre    ? "the centre"
                           : place[1] < 0 ? "the bass side"
                                          : "the treble side";
  std::string part = place[2] > 0 ? " of the board" : " of the back";
  if (place[0] < 0)
    part = " of the headstock";
  else if (place[0] > mesh.body_join)
    part = place[2] > 0 ? " of the tongue" : " of the pocket";
  char where[64];
  std::snprintf(where, sizeof where, " at %.0f mm %s the nut", std::abs(place[0]) * 1e3,
                place[0] < 0 ? "behind" : "from");
  return side + part + where;
}
} // namespace overbend::mesh
