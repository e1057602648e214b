// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/neck_shapes.h"

#include <vtkAppendPolyData.h>
#include <vtkCellType.h>
#include <vtkClipPolyData.h>
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
constexpr const char *built_name[3] = {"built x", "built y", "built z"};
// Exactly on the symmetry plane faces of cells would come out twice or not at all.
constexpr double off_the_nodes = 1e-6;

vtkSmartPointer<vtkDoubleArray> point_values(const std::vector<double> &value, const char *name)
{
  auto values = vtkSmartPointer<vtkDoubleArray>::New();
  values->SetName(name);
  values->SetNumberOfTuples(vtkIdType(value.size()));
  for (std::size_t n = 0; n < value.size(); ++n)
    values->SetValue(vtkIdType(n), value[n]);
  return values;
}

// Coordinate i of the straight neck, as point values.
vtkSmartPointer<vtkDoubleArray> built(const std::vector<double> &nodes, std::size_t i,
                                      const char *name)
{
  std::vector<double> coordinate(nodes.size() / 3);
  for (std::size_t n = 0; n < coordinate.size(); ++n)
    coordinate[n] = nodes[3 * n + i];
  return point_values(coordinate, name);
}

vtkSmartPointer<vtkUnstructuredGrid> grid(const std::vector<double> &nodes,
                                          const std::vector<Vec3> &places,
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
  if (!value.empty())
    made->GetPointData()->SetScalars(point_values(value, "value"));
  for (std::size_t i = 0; i < 3; ++i)
    made->GetPointData()->AddArray(built(nodes, i, built_name[i]));
  return made;
}

// Where the point values of a name have given values.
vtkSmartPointer<vtkPolyData> level_of(vtkDataSet *cells, const char *name,
                                      const std::vector<double> &at)
{
  vtkNew<vtkContourFilter> cut;
  cut->SetInputData(cells);
  cut->SetInputArrayToProcess(0, 0, 0, vtkDataObject::FIELD_ASSOCIATION_POINTS, name);
  cut->ComputeNormalsOff();
  cut->ComputeScalarsOff();
  for (std::size_t i = 0; i < at.size(); ++i)
    cut->SetValue(int(i), at[i]);
  cut->Update();
  return cut->GetOutput();
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
  return grid(mesh.nodes, places, mesh.cells, 27, VTK_TRIQUADRATIC_HEXAHEDRON, value);
}

vtkSmartPointer<vtkPolyData> NeckShapes::outside(const std::vector<Vec3> &places,
                                                 const std::vector<double> &value) const
{
  return surface_of(neck_grid(places, value));
}

vtkSmartPointer<vtkPolyData> NeckShapes::cut_along(double y, const std::vector<Vec3> &places,
                                                   const std::vector<double> &value) const
{
  const auto cells = neck_grid(places, value);
  const auto cut = level_of(cells, "built y", {y + off_the_nodes});
  cut->GetPointData()->SetActiveScalars("value");
  return cut;
}

vtkSmartPointer<vtkPolyData> NeckShapes::glue_line(std::size_t line,
                                                   const std::vector<Vec3> &places,
                                                   const std::vector<double> &value) const
{
  return surface_of(grid(mesh.glue.nodes, places, mesh.glue.lines.at(line).faces, 9,
                         VTK_BIQUADRATIC_QUAD, value));
}

vtkSmartPointer<vtkPolyData> NeckShapes::glue_cut(std::size_t line, double y,
                                                  const std::vector<Vec3> &places) const
{
  return level_of(glue_line(line, places, {}), "built y", {y + off_the_nodes});
}

vtkSmartPointer<vtkPolyData> NeckShapes::levels(vtkPolyData *surface, const std::vector<double> &at)
{
  return level_of(surface, "value", at);
}

vtkSmartPointer<vtkPolyData> NeckShapes::across_top(vtkPolyData *surface,
                                                    const std::vector<double> &places, double depth)
{
  vtkNew<vtkAppendPolyData> all;
  for (const double x : places) {
    const auto around = level_of(surface, "built x", {x});
    vtkDataArray *const height = around->GetPointData()->GetArray("built z");
    if (height == nullptr || around->GetNumberOfPoints() == 0)
      continue;
    vtkNew<vtkClipPolyData> top;
    around->GetPointData()->SetActiveScalars("built z");
    top->SetInputData(around);
    top->SetValue(height->GetRange()[1] - depth);
    top->Update();
    all->AddInputData(top->GetOutput());
  }
  if (all->GetNumberOfInputConnections(0) == 0)
    return vtkSmartPointer<vtkPolyData>::New();
  all->Update();
  return all->GetOutput();
}
} // namespace overbend::viz
