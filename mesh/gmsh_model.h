// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"

#include <map>
#include <string>

namespace overbend::mesh
{
// The library Gmsh holds one global state. A session starts it, quietly, and ends it with the last
// session; sessions may be nested, but not used from several threads.
class GmshSession
{
public:
  GmshSession();
  ~GmshSession();
  GmshSession(const GmshSession &) = delete;
  GmshSession &operator=(const GmshSession &) = delete;
};

// A neck mesh as a model of Gmsh: quadratic hexahedra (27 nodes) and their boundary faces (9
// nodes), with a named physical group for each piece and each named face. It is the current model
// while the object lives.
class GmshModel
{
public:
  explicit GmshModel(const NeckMesh &mesh);
  ~GmshModel();
  GmshModel(const GmshModel &) = delete;
  GmshModel &operator=(const GmshModel &) = delete;

  // Least Jacobian determinant over the points of the 3x3x3 Gauss rule, as Gmsh evaluates it from
  // its own shape functions, over the mean of its cell. Throws ShapeError, naming the place, where
  // it is not positive.
  double least_jacobian() const;

  // Integral of the Jacobian over each piece, m^3.
  std::map<Piece, double> volumes() const;

  // Writes the model; the ending decides the format (.msh, .vtk, ...). std::runtime_error where it
  // says that it cannot; it says nothing of a full disk.
  void write(const std::string &path) const;

private:
  GmshSession session_;
  const NeckMesh &mesh_;
  std::string name_;
};
} // namespace overbend::mesh
