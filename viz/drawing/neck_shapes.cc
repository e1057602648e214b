// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/neck_shapes.h"

#include <vtkCellType.h>
#include <vtkContourFilter.h>
#include <vtkDataSetSurfaceFilter.h>
#include <vtkDoubleArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>

namespace overbend::viz
{
namespace
{
vtkSmartPointer<vtkDoubleArray> point_values(const std::vector<double> &value, const char *name)
{
  auto values = vtkSmartPointer<vtkDoubleArray>::New();
  values->SetName(name);
  values->SetNumberOfTuples(vtkIdType(value.size()));
  for (std::size_t n = 0; n < value.size(); ++n)
    values->SetValue(vtkIdType(n), value[n]);
  return values;
}

vtkSmartPointer<vtkUnstructuredGrid> grid(const std::vector<Vec3> &places,
                                          const std::vector<int> &cells, int nodes_per_cell,
                                          int type, const std::vector<double> &value)
{
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  points->SetNumberOfPoints(vtkIdType(places.size()));
  for (std::size_t n = 0; n < places.size(); ++n)
    points->SetPoint(vtkIdType(n), places[n].data());
  auto made = vtkSmartPointer<vtkUnstructuredGrid>::New();
  made->SetPoints(points);
  made->Allocate(vtkIdType(cells.size()) / nodes_per_cell);
  std::vector<vtkIdType> ids(static_cast<std::size_t>(nodes_per_cell));
  for (std::size_t c = 0; c < cells.size(); c += ids.size()) {
    for (std::size_t k = 0; k < ids.size(); ++k)
      ids[k] = cells[c + k];
    made->InsertNextCell(type, nodes_per_cell, ids.data());
  }
  if (!value.empty()) {
    made->GetPointData()->SetScalars(point_values(value, "value"));
  }
  return made;
}

vtkSmartPointer<vtkPolyData> surface_of(vtkUnstructuredGrid *cells)
{
  vtkNew<vtkDataSetSurfaceFilter> surface;
  surface->SetInputData(cells);
  surface->SetNonlinearSubdivisionLevel(2);
  surface->Update();
  return surface->GetOutput();
}
} // namespace

std::vector<Vec3> moved(const std::vector<double> &nodes, const std::vector<double> &displacement,
                        double times)
{
  std::vector<Vec3> places(nodes.size() / 3);
  for (std::size_t n = 0; n < places.size(); ++n)
    for (std::size_t i = 0; i < 3; ++i)
      places[n][i] =
          nodes[3 * n + i] + (displacement.empty() ? 0 : times * displacement[3 * n + i]);
  return places;
}

NeckShapes::NeckShapes(const solver::MeshData &of) : mesh(of) {}

vtkSmartPointer<vtkUnstructuredGrid> NeckShapes::neck_grid(const std::vector<Vec3> &places,
                                                           const std::vector<double> &value) const
{
  return grid(places, mesh.cells, 27, VTK_TRIQUADRATIC_HEXAHEDRON, value);
}

vtkSmartPointer<vtkPolyData> NeckShapes::outside(const std::vector<Vec3> &places,
                                                 const std::vector<double> &value) const
{
  return surface_of(neck_grid(places, value));
}

vtkSmartPointer<vtkPolyData> NeckShapes::middle_cut(const std::vector<Vec3> &places,
                                                    const std::vector<double> &value) const
{
  // The surface y = 0 of the straight neck as a level of y, carried along by the bending.
  std::vector<double> across(places.size());
  for (std::size_t n = 0; n < across.size(); ++n)
    across[n] = mesh.nodes[3 * n + 1];
  const auto cells = neck_grid(places, across);
  cells->GetPointData()->AddArray(point_values(value, "shown"));
  vtkNew<vtkContourFilter> cut;
  cut->SetInputData(cells);
  cut->ComputeNormalsOff();
  cut->ComputeScalarsOff();
  // Exactly on the symmetry plane faces of cells would come out twice or not at all.
  cut->SetValue(0, 1e-6);
  cut->Update();
  vtkSmartPointer<vtkPolyData> surface = cut->GetOutput();
  surface->GetPointData()->SetActiveScalars("shown");
  return surface;
}

vtkSmartPointer<vtkPolyData> NeckShapes::glue_line(std::size_t line,
                                                   const std::vector<Vec3> &places,
                                                   const std::vector<double> &value) const
{
  return surface_of(grid(places, mesh.glue.lines.at(line).faces, 9, VTK_BIQUADRATIC_QUAD, value));
}
} // namespace overbend::viz
