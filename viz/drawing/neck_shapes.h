// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/results.h"

#include <vtkPolyData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>

#include <array>
#include <string>
#include <vector>

namespace overbend::viz
{
using Vec3 = std::array<double, 3>;

// Places of nodes moved by a displacement (3 a node, m; empty: not moved), drawn `times` larger.
std::vector<Vec3> moved(const std::vector<double> &nodes, const std::vector<double> &displacement,
                        double times);

// The shapes of a mesh at one moment, their curved faces cut into small flat ones. `value` has one
// number a node (empty: none) and becomes the point values. Where a point lies in the straight neck
// goes along with it.
class NeckShapes
{
public:
  explicit NeckShapes(const solver::MeshData &mesh);

  vtkSmartPointer<vtkPolyData> outside(const std::vector<Vec3> &places,
                                       const std::vector<double> &value = {}) const;
  // The cut along the neck where the straight one has this y (m).
  vtkSmartPointer<vtkPolyData> cut_along(double y, const std::vector<Vec3> &places,
                                         const std::vector<double> &value) const;
  // One glue line, of mesh.glue.lines.
  vtkSmartPointer<vtkPolyData> glue_line(std::size_t line, const std::vector<Vec3> &places,
                                         const std::vector<double> &value) const;

  // Where a glue line crosses that cut.
  vtkSmartPointer<vtkPolyData> glue_cut(std::size_t line, double y,
                                        const std::vector<Vec3> &places) const;
  // Lines across a surface at places x (m) of the straight neck, where it is the board's top: not
  // more than `depth` (m) under the highest point of each.
  static vtkSmartPointer<vtkPolyData> across_top(vtkPolyData *surface, const std::vector<double> &x,
                                                 double depth);
  // Lines of equal point values on a surface.
  static vtkSmartPointer<vtkPolyData> levels(vtkPolyData *surface, const std::vector<double> &at);

private:
  vtkSmartPointer<vtkUnstructuredGrid> neck_grid(const std::vector<Vec3> &places,
                                                 const std::vector<double> &value) const;
  const solver::MeshData &mesh;
};
} // namespace overbend::viz
