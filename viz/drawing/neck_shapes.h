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
// number a node (empty: none) and becomes the point values.
class NeckShapes
{
public:
  explicit NeckShapes(const solver::MeshData &mesh);

  vtkSmartPointer<vtkPolyData> outside(const std::vector<Vec3> &places,
                                       const std::vector<double> &value = {}) const;
  // The cut where the straight neck has y = 0.
  vtkSmartPointer<vtkPolyData> middle_cut(const std::vector<Vec3> &places,
                                          const std::vector<double> &value) const;
  // One glue line, of mesh.glue.lines.
  vtkSmartPointer<vtkPolyData> glue_line(std::size_t line, const std::vector<Vec3> &places,
                                         const std::vector<double> &value) const;

private:
  vtkSmartPointer<vtkUnstructuredGrid> neck_grid(const std::vector<Vec3> &places,
                                                 const std::vector<double> &value) const;
  const solver::MeshData &mesh;
};
} // namespace overbend::viz
