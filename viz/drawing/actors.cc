// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/canvas.h"

#include <vtkCellArray.h>
#include <vtkFeatureEdges.h>
#include <vtkPoints.h>
#include <vtkPolyDataMapper.h>
#include <vtkPolyDataNormals.h>
#include <vtkProperty.h>

namespace overbend::viz
{
vtkSmartPointer<vtkActor> surface_actor(vtkPolyData *surface, const Colour &colour, double opacity)
{
  vtkNew<vtkPolyDataNormals> normals;
  normals->SetInputData(surface);
  normals->SetFeatureAngle(30);
  normals->Update();
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(normals->GetOutput());
  mapper->ScalarVisibilityOff();
  auto actor = vtkSmartPointer<vtkActor>::New();
  actor->SetMapper(mapper);
  vtkProperty *const look = actor->GetProperty();
  look->SetColor(colour[0], colour[1], colour[2]);
  look->SetOpacity(opacity);
  look->SetAmbient(0.5);
  look->SetDiffuse(0.5);
  return actor;
}

vtkSmartPointer<vtkActor> coloured_actor(vtkPolyData *surface, const ColourScale &scale)
{
  auto actor = surface_actor(surface, {1, 1, 1});
  vtkMapper *const mapper = actor->GetMapper();
  mapper->SetLookupTable(scale.table());
  mapper->UseLookupTableScalarRangeOn();
  mapper->InterpolateScalarsBeforeMappingOn();
  mapper->ScalarVisibilityOn();
  mapper->SetScalarModeToUsePointData();
  // Shading darkens a little, so that the form is seen and the colour is still that of the bar.
  actor->GetProperty()->SetAmbient(0.85);
  actor->GetProperty()->SetDiffuse(0.15);
  return actor;
}

vtkSmartPointer<vtkActor> line_actor(vtkPolyData *lines, const Colour &colour, double width)
{
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(lines);
  mapper->ScalarVisibilityOff();
  auto actor = vtkSmartPointer<vtkActor>::New();
  actor->SetMapper(mapper);
  actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
  actor->GetProperty()->SetLineWidth(float(width));
  actor->GetProperty()->LightingOff();
  return actor;
}

vtkSmartPointer<vtkActor> path_actor(const std::vector<std::vector<Vec3>> &paths,
                                     const Colour &colour, double width)
{
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> lines;
  for (const std::vector<Vec3> &path : paths) {
    lines->InsertNextCell(vtkIdType(path.size()));
    for (const Vec3 &p : path)
      lines->InsertCellPoint(points->InsertNextPoint(p.data()));
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetLines(lines);
  return line_actor(data, colour, width);
}

vtkSmartPointer<vtkActor> edge_actor(vtkPolyData *surface, const Colour &colour, double width)
{
  vtkNew<vtkFeatureEdges> edges;
  edges->SetInputData(surface);
  edges->SetFeatureAngle(35);
  edges->NonManifoldEdgesOff();
  edges->ColoringOff();
  edges->Update();
  return line_actor(edges->GetOutput(), colour, width);
}
} // namespace overbend::viz
