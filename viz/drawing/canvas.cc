// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/canvas.h"

#include "solver/results/file_error.h"

#include <vtkCamera.h>
#include <vtkFeatureEdges.h>
#include <vtkImageData.h>
#include <vtkPNGWriter.h>
#include <vtkPointData.h>
#include <vtkPolyDataMapper.h>
#include <vtkPolyDataNormals.h>
#include <vtkProperty.h>
#include <vtkScalarBarActor.h>
#include <vtkTextActor.h>
#include <vtkTextProperty.h>
#include <vtkUnsignedCharArray.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

Vec3 cross(const Vec3 &a, const Vec3 &b)
{
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

double dot(const Vec3 &a, const Vec3 &b)
{
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Vec3 unit(const Vec3 &a)
{
  const double length = std::sqrt(dot(a, a));
  return {a[0] / length, a[1] / length, a[2] / length};
}

void style(vtkTextProperty *words, const std::string &font, int size)
{
  words->SetFontFamily(VTK_FONT_FILE);
  words->SetFontFile(font.c_str());
  words->SetFontSize(size);
  words->SetColor(0.1, 0.1, 0.1);
  words->BoldOff();
  words->ItalicOff();
  words->ShadowOff();
}
} // namespace

std::string font_file()
{
  // Where Debian, Fedora and Arch keep it.
  for (const char *path :
       {"/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
        "/usr/share/fonts/dejavu-sans-fonts/DejaVuSans.ttf", "/usr/share/fonts/TTF/DejaVuSans.ttf"})
    if (fs::exists(path))
      return path;
  throw CannotDraw(
      "no pictures: the font DejaVu Sans is not installed; on Debian it is the package "
      "fonts-dejavu-core");
}

vtkSmartPointer<vtkLookupTable> ColourScale::table() const
{
  constexpr int n = 256;
  auto colours = vtkSmartPointer<vtkLookupTable>::New();
  colours->SetNumberOfTableValues(n);
  colours->SetTableRange(from, to);
  for (int i = 0; i < n; ++i) {
    const Colour c = cividis(i / (n - 1.));
    colours->SetTableValue(i, c[0], c[1], c[2]);
  }
  return colours;
}

Canvas::Canvas(int width, int height) : size{width, height}, font(font_file())
{
  window->create(width, height);
  window->SetMultiSamples(4); // never together with FXAA: the picture turns black
  window->SetNumberOfLayers(2);
  paper->SetLayer(1);
  paper->InteractiveOff();
  blank->SetBackground(1, 1, 1);
  blank->InteractiveOff();
  window->AddRenderer(blank);
  window->AddRenderer(paper);
}

vtkRenderer *Canvas::add_strip(const Frame &frame)
{
  auto strip = vtkSmartPointer<vtkRenderer>::New();
  strip->SetViewport(frame.left, frame.bottom, frame.right, frame.top);
  strip->SetBackground(1, 1, 1);
  strip->SetLayer(0);
  strip->GetActiveCamera()->ParallelProjectionOn();
  window->AddRenderer(strip);
  strips.push_back(strip);
  return strip;
}

void Canvas::look(vtkRenderer *strip, const Vec3 &towards, const std::vector<Vec3> &points)
{
  const Vec3 ahead = unit(towards), side = unit(cross(ahead, {0, 0, 1})), up = cross(side, ahead);
  double low[3] = {1e300, 1e300, 1e300}, high[3] = {-1e300, -1e300, -1e300};
  const Vec3 *const axes[3] = {&side, &up, &ahead};
  for (const Vec3 &p : points)
    for (int i = 0; i < 3; ++i) {
      low[i] = std::min(low[i], dot(p, *axes[i]));
      high[i] = std::max(high[i], dot(p, *axes[i]));
    }
  Vec3 middle{};
  for (std::size_t d = 0; d < 3; ++d)
    for (int i = 0; i < 3; ++i)
      middle[d] += 0.5 * (low[i] + high[i]) * (*axes[i])[d];
  const double *const view = strip->GetViewport();
  const double aspect = size[0] * (view[2] - view[0]) / (size[1] * (view[3] - view[1]));
  const double half = 0.5 * std::max(high[1] - low[1], (high[0] - low[0]) / aspect);
  const double distance = 1 + high[2] - low[2];
  vtkCamera *const camera = strip->GetActiveCamera();
  camera->SetFocalPoint(middle.data());
  camera->SetPosition(middle[0] - distance * ahead[0], middle[1] - distance * ahead[1],
                      middle[2] - distance * ahead[2]);
  camera->SetViewUp(up.data());
  camera->SetParallelScale(1.06 * half);
  camera->SetClippingRange(0.1, 3 * distance);
}

void Canvas::text(double x, double y, const std::string &words, int points, Align align)
{
  vtkNew<vtkTextActor> actor;
  actor->SetInput(words.c_str());
  style(actor->GetTextProperty(), font, points);
  actor->GetTextProperty()->SetJustification(align == Align::start    ? VTK_TEXT_LEFT
                                             : align == Align::centre ? VTK_TEXT_CENTERED
                                                                      : VTK_TEXT_RIGHT);
  actor->GetTextProperty()->SetVerticalJustificationToCentered();
  actor->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
  actor->SetPosition(x, y);
  paper->AddActor2D(actor);
}

void Canvas::colour_bar(const ColourScale &scale, double from, double to)
{
  constexpr double bottom = 0.03;
  vtkNew<vtkScalarBarActor> bar;
  bar->SetLookupTable(scale.table());
  bar->SetOrientationToHorizontal();
  bar->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
  bar->SetPosition(from, bottom);
  bar->SetWidth(to - from);
  bar->SetHeight(0.055);
  bar->SetBarRatio(0.45);
  bar->SetNumberOfLabels(scale.labels);
  bar->SetLabelFormat("%.3g");
  bar->SetTitle("");
  bar->UnconstrainedFontSizeOn();
  bar->SetTextPositionToPrecedeScalarBar();
  style(bar->GetLabelTextProperty(), font, 20);
  paper->AddActor2D(bar);
  text(0.5 * (from + to), bottom + 0.075, scale.title, 22, Align::centre);
}

void Canvas::clear()
{
  paper->RemoveAllViewProps();
  for (const auto &strip : strips)
    window->RemoveRenderer(strip);
  strips.clear();
}

const std::vector<unsigned char> &Canvas::pixels()
{
  window->Render();
  vtkNew<vtkUnsignedCharArray> data;
  window->GetPixelData(0, 0, size[0] - 1, size[1] - 1, 0, data, 0);
  const std::size_t line = 3 * std::size_t(size[0]);
  rgb.resize(line * std::size_t(size[1]));
  for (std::size_t y = 0; y < std::size_t(size[1]); ++y)
    std::copy_n(data->GetPointer(vtkIdType(line * (std::size_t(size[1]) - 1 - y))), line,
                rgb.begin() + std::ptrdiff_t(y * line));
  return rgb;
}

void Canvas::write_png(const std::string &path)
{
  pixels();
  vtkNew<vtkImageData> image;
  image->SetDimensions(size[0], size[1], 1);
  image->AllocateScalars(VTK_UNSIGNED_CHAR, 3);
  auto *const to = static_cast<unsigned char *>(image->GetScalarPointer());
  const std::size_t line = 3 * std::size_t(size[0]);
  for (std::size_t y = 0; y < std::size_t(size[1]); ++y)
    std::copy_n(rgb.begin() + std::ptrdiff_t((std::size_t(size[1]) - 1 - y) * line), line,
                to + y * line);
  // Under another name first: a picture is there as a whole or not at all.
  const std::string part = path + ".part";
  vtkNew<vtkPNGWriter> writer;
  writer->SetInputData(image);
  writer->SetFileName(part.c_str());
  writer->Write();
  std::error_code error;
  if (writer->GetErrorCode() == 0)
    fs::rename(part, path, error);
  if (writer->GetErrorCode() != 0 || error)
    throw solver::FileError(path, "cannot be written",
                            "check the rights and the space of the disk");
}

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
  actor->GetProperty()->SetAmbient(0.75);
  actor->GetProperty()->SetDiffuse(0.25);
  return actor;
}

vtkSmartPointer<vtkActor> edge_actor(vtkPolyData *surface, const Colour &colour, double width)
{
  vtkNew<vtkFeatureEdges> edges;
  edges->SetInputData(surface);
  edges->SetFeatureAngle(35);
  edges->NonManifoldEdgesOff();
  edges->ColoringOff();
  edges->Update();
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(edges->GetOutput());
  mapper->ScalarVisibilityOff();
  auto actor = vtkSmartPointer<vtkActor>::New();
  actor->SetMapper(mapper);
  actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
  actor->GetProperty()->SetLineWidth(float(width));
  actor->GetProperty()->LightingOff();
  return actor;
}
} // namespace overbend::viz
