// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/neck_profile.h"

#include "mesh/shape_error.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace overbend::mesh
{
namespace
{
using cases::HeadstockKind;
using cases::HeelKind;
using cases::RodKind;

// All estimates [E]: shop drawings differ, and the answers hardly depend on them.
constexpr double volute = 30e-3;        // behind the nut, from shaft to headstock section
constexpr double flare = 45e-3;         // behind the nut, to the headstock's full width
constexpr double shortest_drop = 12e-3; // length of the drop of a stepped headstock face
constexpr double plank_inverse = 0.02;  // 1/n of headstock and bolt-on pocket, nearly square
constexpr double heel_inverse = 0.25;   // 1/n of a heel at the body
constexpr double core_share = 0.5;      // half width of the straight columns over that of the neck
constexpr double channel_stop = 20e-3;  // the channel ends this far before the body join
constexpr double same_place = 1.5e-3;   // ends of pocket and board closer than this are made one

std::string mm(double metres)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.1f mm", metres * 1e3);
  return text;
}

double headstock_angle(const cases::Headstock &headstock)
{
  return headstock.kind == HeadstockKind::flat ? 0.0 : headstock.angle;
}

double face_height(const cases::Headstock &headstock, double x)
{
  if (x >= 0)
    return 0;
  if (headstock.kind != HeadstockKind::flat)
    return x * std::tan(headstock.angle);
  const double drop = std::max(shortest_drop, 3 * headstock.face_step);
  return -headstock.face_step * smooth_step(-x / drop);
}
} // namespace

double smooth_step(double t)
{
  t = std::clamp(t, 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

NeckProfile::NeckProfile(const cases::NeckShape &neck) : shape(neck)
{
  check_sizes();
  place_ends();
  if (has_channel)
    check_channel();
  if (has_scarf)
    place_scarf();
}

void NeckProfile::check_sizes() const
{
  const auto positive = [](double value, const char *what) {
    if (!(value > 0) || !std::isfinite(value))
      throw ShapeError(std::string(what) + " is not a positive length", "give it a size");
  };
  positive(shape.scale_length, "the scale length");
  positive(shape.nut_width, "the width at the nut");
  positive(shape.width_at_12, "the width at fret 12");
  positive(shape.board_thickness, "the thickness of the board");
  positive(shape.depth_at_1 - shape.board_thickness, "the depth at fret 1 less the board");
  positive(shape.depth_at_12 - shape.board_thickness, "the depth at fret 12 less the board");
  positive(shape.headstock.length, "the length of the headstock");
  positive(shape.headstock.width, "the width of the headstock");
  positive(shape.headstock.thickness, "the thickness of the headstock");
  positive(shape.heel.depth, "the depth of the heel");
  positive(shape.heel.length, "the length of the heel");
  if (!(shape.back_exponent >= 1.5))
    throw ShapeError("the back exponent is below 1.5, which gives a keel and not a neck",
                     "use 2 for an ellipse, more for squarer shoulders");
  if (shape.headstock.length * std::cos(headstock_angle(shape.headstock)) < 1.5 * flare)
    throw ShapeError("the headstock is shorter than " + mm(1.5 * flare), "give its full length");
}

void NeckProfile::place_ends()
{
  const auto &heel = shape.heel;
  tip = -shape.headstock.length * std::cos(headstock_angle(shape.headstock));
  body_join = cases::fret_position(shape.scale_length, shape.join_fret);
  board_end = cases::fret_position(shape.scale_length, shape.frets) + shape.board_end;
  heel_start = body_join - heel.length;
  neck_end = heel.kind == HeelKind::bolt_on ? body_join + heel.pocket : body_join;
  if (std::abs(neck_end - board_end) < same_place)
    neck_end = board_end;
  channel_end = body_join - std::min(channel_stop, heel.length / 2);
  has_channel = shape.rod.kind != RodKind::none;
  has_scarf = shape.headstock.kind == HeadstockKind::scarf;
  if (heel_start < 0.3 * body_join)
    throw ShapeError("the heel takes " + mm(heel.length) + " of " + mm(body_join) +
                         " from nut to body and leaves no shaft",
                     "give the length of the curve of the heel along the neck");
  if (board_end < body_join)
    throw ShapeError("the board ends before the body join", "check the number of frets");
  const double widest = std::max(half_width(0), half_width(board_end));
  if (shape.board_radius < 1.05 * widest ||
      shape.board_radius - std::sqrt(std::pow(shape.board_radius, 2) - widest * widest) >
          0.8 * shape.board_thickness)
    throw ShapeError("a board of radius " + mm(shape.board_radius) + " has no thickness left at " +
                         "its edges",
                     "check the radius and the thickness of the board along its centre line");
}

void NeckProfile::place_scarf()
{
  scarf_bottom = shape.headstock.scarf_start;
  scarf_slope = std::tan(shape.headstock.angle);
  if (!(scarf_slope > 0.1))
    throw ShapeError("a scarf needs a headstock angle of 6 degrees or more",
                     "give the angle between headstock face and fingerboard");
  if (scarf_bottom < 0 || scarf_bottom > heel_start)
    throw ShapeError("the scarf starts off the shaft", "give its distance from the nut");
  scarf_top = scarf_bottom + depth(scarf_bottom) / scarf_slope;
  if (scarf_top > heel_start - 25e-3)
    throw ShapeError("the scarf is longer than the shaft: it meets the fingerboard " +
                         mm(scarf_top) + " from the nut and the heel begins at " + mm(heel_start),
                     "check the headstock angle and where the scarf starts");
}

void NeckProfile::check_channel() const
{
  const auto &rod = shape.rod;
  const double wall = rod.channel_width / 2;
  if (!(wall > 0) || !(rod.channel_depth > 0))
    throw ShapeError("the rod channel has no width or depth", "give both");
  if (wall > 0.8 * core_share * half_width(0))
    throw ShapeError("a rod channel " + mm(rod.channel_width) + " wide leaves too little wood in " +
                         "a neck " + mm(shape.nut_width) + " wide",
                     "check the width of the channel");
  if (rod.kind == RodKind::single_action &&
      !(rod.fillet_depth > 0 && rod.fillet_depth < 0.95 * rod.channel_depth))
    throw ShapeError("the fillet over the rod is not between the glue plane and the bottom of "
                     "the channel",
                     "give the depth of the fillet from the glue plane");
  for (const double x : {0.0, 0.5 * heel_start, heel_start, channel_end}) {
    const double wood = profile_depth(section(x), wall) - rod.channel_depth;
    if (wood < 0.5e-3)
      throw ShapeError("the rod channel goes through the back " + mm(x) + " from the nut",
                       "the channel may be at most " + mm(rod.channel_depth + wood - 0.5e-3) +
                           " deep there");
  }
}

double NeckProfile::half_width(double x) const
{
  const double slope = (shape.width_at_12 - shape.nut_width) / (0.5 * shape.scale_length);
  if (x >= 0)
    return 0.5 * (shape.nut_width + slope * x);
  return 0.5 *
         (shape.nut_width + (shape.headstock.width - shape.nut_width) * smooth_step(-x / flare));
}

double NeckProfile::shaft_depth(double x) const
{
  const double x1 = cases::fret_position(shape.scale_length, 1), x12 = 0.5 * shape.scale_length;
  const double at_1 = shape.depth_at_1 - shape.board_thickness;
  const double at_12 = shape.depth_at_12 - shape.board_thickness;
  return at_1 + (at_12 - at_1) * (x - x1) / (x12 - x1);
}

double NeckProfile::depth(double x) const
{
  if (x < 0) {
    const double plank = shape.headstock.thickness / std::cos(headstock_angle(shape.headstock));
    return shaft_depth(0) + (plank - shaft_depth(0)) * smooth_step(-x / volute);
  }
  const double shaft = shaft_depth(std::min(x, heel_start));
  return shaft + (shape.heel.depth - shaft) * smooth_step((x - heel_start) / shape.heel.length);
}

double NeckProfile::top(double x) const
{
  return face_height(shape.headstock, x);
}

Section NeckProfile::section(double x) const
{
  const double half = half_width(x), shaft = 1 / shape.back_exponent;
  const double end = x < 0                                  ? plank_inverse
                     : shape.heel.kind == HeelKind::bolt_on ? plank_inverse
                                                            : std::min(shaft, heel_inverse);
  const double step =
      x < 0 ? smooth_step(-x / volute) : smooth_step((x - heel_start) / shape.heel.length);
  return {half, core_share * half, depth(x), shaft + (end - shaft) * step};
}

double NeckProfile::board_height(double y) const
{
  const double r = shape.board_radius;
  if (!std::isfinite(r))
    return shape.board_thickness;
  return shape.board_thickness - y * y / (r + std::sqrt(r * r - y * y));
}

dealii::Point<3> on_headstock_face(const cases::NeckShape &shape, double distance_along, double y)
{
  const double x = -distance_along * std::cos(headstock_angle(shape.headstock));
  return {x, y, face_height(shape.headstock, x)};
}
} // namespace overbend::mesh
