// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/canvas.h"

#include "solver/results/file_error.h"

#include <vtkActorCollection.h>
#include <vtkCamera.h>
#include <vtkImageData.h>
#include <vtkMapper.h>
#include <vtkPNGWriter.h>
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

// The directions of a picture that is looked at along `towards`, z up.
struct Axes
{
  Vec3 side, up, ahead;
};

Axes axes_of(const Vec3 &towards)
{
  const Vec3 ahead = unit(towards), side = unit(cross(ahead, {0, 0, 1}));
  return {side, cross(side, ahead), ahead};
}

struct Bounds
{
  double low[3] = {1e300, 1e300, 1e300}, high[3] = {-1e300, -1e300, -1e300};
};

Bounds bounds_of(const Axes &axes, const std::vector<Vec3> &points)
{
  Bounds bounds;
  const Vec3 *const directions[3] = {&axes.side, &axes.up, &axes.ahead};
  for (const Vec3 &p : points)
    for (int i = 0; i < 3; ++i) {
      bounds.low[i] = std::min(bounds.low[i], dot(p, *directions[i]));
      bounds.high[i] = std::max(bounds.high[i], dot(p, *directions[i]));
    }
  return bounds;
}
} // namespace

namespace
{
// Lines on a surface come nearer to the eye than it, or they flicker through each other. In a
// parallel projection nothing else changes by that.
void lift_lines(vtkRenderer *strip, const Vec3 &ahead)
{
  constexpr double lift = -1e-3; // m
  vtkActorCollection *const actors = strip->GetActors();
  actors->InitTraversal();
  while (vtkActor *const actor = actors->GetNextActor()) {
    auto *const shape = vtkPolyData::SafeDownCast(actor->GetMapper()->GetInput());
    if (shape != nullptr && shape->GetNumberOfPolys() == 0)
      actor->AddPosition(lift * ahead[0], lift * ahead[1], lift * ahead[2]);
  }
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

std::array<double, 2> Canvas::extent(const Vec3 &towards, const std::vector<Vec3> &points)
{
  const Bounds bounds = bounds_of(axes_of(towards), points);
  return {bounds.high[0] - bounds.low[0], bounds.high[1] - bounds.low[1]};
}

void Canvas::look(vtkRenderer *strip, const Vec3 &towards, const std::vector<Vec3> &points)
{
  const Axes seen = axes_of(towards);
  const auto [low, high] = bounds_of(seen, points);
  const Vec3 &ahead = seen.ahead, &up = seen.up;
  const Vec3 *const axes[3] = {&seen.side, &seen.up, &seen.ahead};
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
  lift_lines(strip, ahead);
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

} // namespace overbend::viz
