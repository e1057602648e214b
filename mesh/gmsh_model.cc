// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/gmsh_model.h"

#include "mesh/mesh_report.h"
#include "mesh/shape_error.h"

#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::mesh
{
namespace
{
constexpr int hexahedron_27 = 12, quadrangle_9 = 10; // element types of Gmsh

// Gmsh's node order by lexicographic position: corners, edges, faces, middle.
constexpr std::array<unsigned, 27> hexahedron_order = {
    {0, 2,  8,  6,  18, 20, 26, 24,                 // corners
     1, 3,  9,  5,  11, 7,  17, 15, 19, 21, 23, 25, // edges
     4, 10, 12, 14, 16, 22, 13}};                   // faces, middle
constexpr std::array<unsigned, 9> quadrangle_order = {{0, 2, 8, 6, 1, 5, 7, 3, 4}};

int open_sessions = 0;

struct GaussRule
{
  std::vector<double> points, weights; // (u, v, w) of each point
};

GaussRule gauss_rule()
{
  const double a = std::sqrt(0.6);
  const std::array<double, 3> x = {{-a, 0, a}}, w = {{5.0 / 9, 8.0 / 9, 5.0 / 9}};
  GaussRule rule;
  for (unsigned q = 0; q < 27; ++q) {
    const unsigned i = q % 3, j = (q / 3) % 3, k = q / 9;
    rule.points.insert(rule.points.end(), {x[i], x[j], x[k]});
    rule.weights.push_back(w[i] * w[j] * w[k]);
  }
  return rule;
}

template <typename Name>
void add_group(int dimension, Name which)
{
  const int tag = static_cast<int>(which);
  gmsh::model::addDiscreteEntity(dimension, tag);
  const int group = gmsh::model::addPhysicalGroup(dimension, {tag}, tag);
  gmsh::model::setPhysicalName(dimension, group, name(which));
}

void add_nodes(const NeckMesh &mesh, int entity)
{
  std::vector<std::size_t> tags;
  std::vector<double> coordinates;
  for (const auto &p : mesh.hexes.nodes()) {
    tags.push_back(tags.size() + 1);
    coordinates.insert(coordinates.end(), {p[0], p[1], p[2]});
  }
  gmsh::model::mesh::addNodes(3, entity, tags, coordinates);
}

// Element tags: cell c has c + 1, boundary face f follows after all cells.
void add_cells(const NeckMesh &mesh)
{
  std::map<Piece, std::pair<std::vector<std::size_t>, std::vector<std::size_t>>> cells;
  std::size_t tag = 0;
  for (const auto &cell : mesh.hexes.cells()) {
    auto &[tags, nodes] = cells[cell.piece];
    tags.push_back(++tag);
    for (const unsigned l : hexahedron_order)
      nodes.push_back(cell.node[l] + 1);
  }
  for (const auto &entry : cells)
    add_group(3, entry.first);
  add_nodes(mesh, static_cast<int>(cells.begin()->first));
  for (const auto &[piece, list] : cells)
    gmsh::model::mesh::addElementsByType(static_cast<int>(piece), hexahedron_27, list.first,
                                         list.second);
}

void add_faces(const NeckMesh &mesh)
{
  std::map<Face, std::pair<std::vector<std::size_t>, std::vector<std::size_t>>> faces;
  std::size_t tag = mesh.hexes.cells().size();
  for (const auto &face : mesh.hexes.faces()) {
    auto &[tags, nodes] = faces[face.face];
    tags.push_back(++tag);
    for (const unsigned l : quadrangle_order)
      nodes.push_back(face.node[l] + 1);
  }
  for (const auto &[face, list] : faces) {
    add_group(2, face);
    gmsh::model::mesh::addElementsByType(static_cast<int>(face), quadrangle_9, list.first,
                                         list.second);
  }
}

// Calls visit(cell, determinants at the 27 points, coordinates of the points).
template <typename Visit>
void for_each_cell(const NeckMesh &mesh, const GaussRule &rule, const Visit &visit)
{
  const std::size_t n = rule.weights.size();
  std::vector<std::size_t> tags, nodes;
  gmsh::model::mesh::getElementsByType(hexahedron_27, tags, nodes);
  if (tags.size() != mesh.hexes.cells().size())
    throw std::logic_error("Gmsh holds another number of cells than the mesh");
  std::vector<double> jacobians, determinants, points;
  gmsh::model::mesh::getJacobians(hexahedron_27, rule.points, jacobians, determinants, points);
  for (std::size_t e = 0; e < tags.size(); ++e)
    visit(mesh.hexes.cells()[tags[e] - 1], &determinants[e * n], &points[3 * e * n]);
}
} // namespace

GmshSession::GmshSession()
{
  if (open_sessions++ > 0)
    return;
  gmsh::initialize(0, nullptr, false);
  gmsh::option::setNumber("General.Terminal", 0);
}

GmshSession::~GmshSession()
{
  if (--open_sessions == 0)
    gmsh::finalize();
}

GmshModel::GmshModel(const NeckMesh &mesh) : mesh_(mesh), name_("neck")
{
  gmsh::model::add(name_);
  add_cells(mesh);
  add_faces(mesh);
  gmsh::model::mesh::reclassifyNodes();
}

GmshModel::~GmshModel()
{
  gmsh::model::setCurrent(name_);
  gmsh::model::remove();
}

double GmshModel::least_jacobian() const
{
  const GaussRule rule = gauss_rule();
  double least = 1;
  for_each_cell(mesh_, rule, [&](const HexCell &, const double *det, const double *points) {
    double mean = 0;
    for (unsigned q = 0; q < 27; ++q)
      mean += rule.weights[q] * det[q] / 8;
    for (unsigned q = 0; q < 27; ++q) {
      if (!(det[q] > 0))
        throw ShapeError(
            "a cell of the Gmsh model is inside out near " +
                describe_place({points[3 * q], points[3 * q + 1], points[3 * q + 2]}, mesh_),
            "check the sizes of the neck there for a sudden change or a thin place");
      least = std::min(least, det[q] / mean);
    }
  });
  return least;
}

std::map<Piece, double> GmshModel::volumes() const
{
  const GaussRule rule = gauss_rule();
  std::map<Piece, double> result;
  for_each_cell(mesh_, rule, [&](const HexCell &cell, const double *det, const double *) {
    for (unsigned q = 0; q < 27; ++q)
      result[cell.piece] += rule.weights[q] * det[q];
  });
  return result;
}

void GmshModel::write(const std::string &path) const
{
  try {
    gmsh::write(path);
  } catch (const std::string &words) {
    // The library throws its words bare, and nobody catches those.
    throw std::runtime_error("Gmsh cannot write " + path + ": " + words);
  }
}
} // namespace overbend::mesh
