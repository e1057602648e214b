// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/to_deal_ii.h"

#include <deal.II/fe/fe_tools.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>
#include <deal.II/grid/tria_accessor.h>
#include <deal.II/grid/tria_iterator.h>

#include <stdexcept>

namespace overbend::mesh
{
namespace
{
// Position of each corner among the 27 lexicographic nodes.
constexpr std::array<unsigned, 8> corners = {{0, 2, 6, 8, 18, 20, 24, 26}};

void create_cells(NeckMesh &mesh)
{
  constexpr unsigned unused = static_cast<unsigned>(-1);
  const auto &nodes = mesh.hexes.nodes();
  std::vector<unsigned> vertex_of(nodes.size(), unused);
  std::vector<dealii::Point<3>> vertices;
  std::vector<dealii::CellData<3>> cells;
  for (const auto &hex : mesh.hexes.cells()) {
    dealii::CellData<3> cell(8);
    for (unsigned v = 0; v < 8; ++v) {
      unsigned &vertex = vertex_of[hex.node[corners[v]]];
      if (vertex == unused) {
        vertex = static_cast<unsigned>(vertices.size());
        vertices.push_back(nodes[hex.node[corners[v]]]);
      }
      cell.vertices[v] = vertex;
    }
    cell.material_id = static_cast<unsigned>(hex.piece);
    cells.push_back(cell);
  }
  mesh.triangulation = std::make_shared<dealii::Triangulation<3>>();
  mesh.triangulation->create_triangulation(vertices, cells, dealii::SubCellData());
}

void name_faces(NeckMesh &mesh)
{
  std::vector<std::array<int, 6>> id(mesh.hexes.cells().size(), {{-1, -1, -1, -1, -1, -1}});
  for (const auto &f : mesh.hexes.faces())
    id[f.cell][f.local] = static_cast<int>(f.face);
  for (const auto &cell : mesh.triangulation->active_cell_iterators()) {
    const auto &hex = mesh.hexes.cells()[cell->active_cell_index()];
    for (unsigned v = 0; v < 8; ++v)
      if (cell->vertex(v) != mesh.hexes.nodes()[hex.node[corners[v]]])
        throw std::logic_error("the triangulation does not keep the order of the cells");
    for (unsigned f = 0; f < 6; ++f) {
      const int face = id[cell->active_cell_index()][f];
      if (cell->face(f)->at_boundary() != (face >= 0))
        throw std::logic_error("the triangulation has another boundary than the mesh");
      if (face >= 0)
        cell->face(f)->set_boundary_id(static_cast<unsigned>(face));
    }
  }
}

void attach_mapping(NeckMesh &mesh)
{
  const auto to_lexicographic = dealii::FETools::hierarchic_to_lexicographic_numbering<3>(2);
  mesh.mapping = std::make_shared<dealii::MappingQCache<3>>(2);
  mesh.mapping->initialize(
      *mesh.triangulation, [&](const dealii::Triangulation<3>::cell_iterator &cell) {
        const auto &hex = mesh.hexes.cells()[static_cast<unsigned>(cell->index())];
        std::vector<dealii::Point<3>> points(27);
        for (unsigned i = 0; i < 27; ++i)
          points[i] = mesh.hexes.nodes()[hex.node[to_lexicographic[i]]];
        return points;
      });
}
} // namespace

void fill_triangulation(NeckMesh &mesh)
{
  create_cells(mesh);
  name_faces(mesh);
  attach_mapping(mesh);
}
} // namespace overbend::mesh
