// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/colour_map.h"
#include "viz/drawing/headless_window.h"

#include <vtkActor.h>
#include <vtkLookupTable.h>
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

// The colours of `cividis` from a least to a largest value.
struct ColourScale
{
  double from = 0, to = 1;
  std::string title; // with the unit
  int labels = 6;
  vtkSmartPointer<vtkLookupTable> table() const;
};

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
  // Throws CannotDraw.
  Canvas(int width, int height);

  vtkRenderer *add_strip(const Frame &frame);
  // Turns the camera of a strip so that it looks along `towards`, z up, in parallel projection, and
  // the points just fill it.
  void look(vtkRenderer *strip, const Vec3 &towards, const std::vector<Vec3> &points);

  void text(double x, double y, const std::string &words, int size, Align align = Align::start);
  // A bar of colours along the lower edge.
  void colour_bar(const ColourScale &scale, double from = 0.32, double to = 0.72);
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

// A surface in one colour, or coloured by its point values.
vtkSmartPointer<vtkActor> surface_actor(vtkPolyData *surface, const Colour &colour,
                                        double opacity = 1);
vtkSmartPointer<vtkActor> coloured_actor(vtkPolyData *surface, const ColourScale &scale);
// Its sharp edges as lines.
vtkSmartPointer<vtkActor> edge_actor(vtkPolyData *surface, const Colour &colour, double width);
} // namespace overbend::viz
