// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"

#include <map>

namespace overbend::mesh
{
// What a mesh consists of and how good its cells are.
struct MeshReport
{
  std::size_t cells = 0, nodes = 0;
  std::size_t unknowns = 0; // three displacements a node of the quadratic cells
  // Jacobian at the points of the 3x3x3 Gauss rule over the product of the three edge tangents'
  // lengths there: 1 for a brick, 0 for a flat cell.
  double least_scaled_jacobian = 0;
  dealii::Point<3> worst_place;
  std::map<Piece, double> volume; // m^3
  std::map<Face, double> area;    // m^2
  std::map<Face, std::size_t> faces;
};

// Evaluates the mapping in use at the Gauss points of cells and boundary faces, and at the nodes of
// the glue faces and the board's top, where interface terms are integrated. Throws ShapeError,
// naming the place, where a Jacobian is not positive.
MeshReport report(const NeckMesh &mesh);

// Writes the mesh for viewing and for other programs: .msh with named physical groups.
void export_gmsh(const NeckMesh &mesh, const std::string &path);

// "the bass side of the back at 12 mm from the nut", for messages.
std::string describe_place(const dealii::Point<3> &place, const NeckMesh &mesh);
} // namespace overbend::mesh
