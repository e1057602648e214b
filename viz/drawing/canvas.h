// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/colour_scale.h"
#include "viz/drawing/headless_window.h"

#include <vtkActor.h>
#include <vtkNew.h>
#include <vtkPolyData.h>
#include <vtkRenderer.h>
#include <vtkSmartPointer.h>

#include <array>
#include <string>
#include <vector>

namespace overbend::viz
{
using Vec3 = std::array<double, 3>;

// A file of the font DejaVu Sans, whose signs are all there. Throws CannotDraw if it is not
// installed.
std::string font_file();

enum class Align { start, centre, end };

// Part of a picture, shares of its width and height.
struct Frame
{
  double left = 0, bottom = 0, right = 1, top = 1;
};

// A white picture: strips one above the other with shapes in them, and texts over all. Places are
// shares of the picture, from its lower corner at the start of the line.
class Canvas
{
public:
  // The points' extent seen along a direction, in m: across the picture, and up.
  static std::array<double, 2> extent(const Vec3 &towards, const std::vector<Vec3> &points);

  // Throws CannotDraw.
  Canvas(int width, int height);

  vtkRenderer *add_strip(const Frame &frame);
  // Turns the camera of a strip so that it looks along `towards`, z up, in parallel projection, and
  // the points just fill it.
  void look(vtkRenderer *strip, const Vec3 &towards, const std::vector<Vec3> &points);

  void text(double x, double y, const std::string &words, int size, Align align = Align::start);
  // A text at a place in a strip, on white.
  void label(vtkRenderer *strip, const Vec3 &place, const std::string &words, int size,
             Align align = Align::start);
  // A box of one colour.
  void box(const Frame &frame, const Colour &colour);
  // Boxes side by side from the start of a frame to its end. What is painted first lies over what
  // is painted later.
  void boxes(const Frame &frame, const std::vector<Colour> &colours);
  void clear(); // texts, bars and strips

  void write_png(const std::string &path);    // FileError
  const std::vector<unsigned char> &pixels(); // RGB, upper line first
  int width() const { return size[0]; }
  int height() const { return size[1]; }

private:
  std::array<int, 2> size;
  std::string font;
  vtkNew<HeadlessWindow> window;
  vtkNew<vtkRenderer> blank, paper; // white under the strips; texts and bars
  std::vector<vtkSmartPointer<vtkRenderer>> strips;
  std::vector<unsigned char> rgb;
};

// From the lower edge: the bar of colours with numbers in its unit, below them in the other one.
void draw_legend(Canvas &canvas, const ColourScale &scale, double from = 0.32, double to = 0.72);

// A surface in one colour, or coloured by its point values.
vtkSmartPointer<vtkActor> surface_actor(vtkPolyData *surface, const Colour &colour,
                                        double opacity = 1);
vtkSmartPointer<vtkActor> coloured_actor(vtkPolyData *surface, const ColourScale &scale);
// Lines of one colour.
vtkSmartPointer<vtkActor> line_actor(vtkPolyData *lines, const Colour &colour, double width);
// Paths from point to point in one colour.
vtkSmartPointer<vtkActor> path_actor(const std::vector<std::vector<Vec3>> &paths,
                                     const Colour &colour, double width);
// Its sharp edges as lines.
vtkSmartPointer<vtkActor> edge_actor(vtkPolyData *surface, const Colour &colour, double width);
} // namespace overbend::viz
