// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "mesh/section.h"

#include <deal.II/base/point.h>

namespace overbend::mesh
{
// Share of the half width at which the bass and treble reading lines run.
constexpr double reading_line_share = 0.86;

// The shape of a neck as functions of x (m, axes of mesh/neck_mesh.h). Sections are upright planes,
// also in a tilted headstock, whose tip face is therefore upright too.
//
// Width: straight taper through the nut and fret 12, flaring to the headstock's width behind the
// nut. Depth of the shaft: straight through frets 1 and 12 (less the board), growing along a
// smooth step to the heel's depth over the heel's length. Back: the superellipse of the case; over
// 30 mm behind the nut it becomes the nearly rectangular headstock, along the heel it becomes the
// squarer heel. Choices with no number in the case (lengths of transitions, exponents of headstock
// and heel, end of the channel) are estimates [E], stated beside the constants in neck_profile.cc.
class NeckProfile
{
public:
  // Throws ShapeError where the parts do not fit each other.
  explicit NeckProfile(const cases::NeckShape &shape);

  double half_width(double x) const;
  double depth(double x) const; // of the lower part below its top, on the centre line
  double top(double x) const;   // z of the top of the lower part: 0 under the board
  Section section(double x) const;
  double board_height(double y) const; // z of the board's top

  const cases::NeckShape shape;
  double tip = 0;        // x of the headstock's end, negative
  double heel_start = 0; // where the shaft's depth begins to grow
  double body_join = 0;
  double neck_end = 0; // end of the lower part: body join, or end of the pocket of a bolt-on
  double board_end = 0;
  double channel_end = 0; // the channel runs from x = 0 to here
  bool has_channel = false;
  // Scarf plane z = (x - scarf_top) tan(angle); it meets the back at scarf_bottom. Only for a
  // scarf.
  bool has_scarf = false;
  double scarf_bottom = 0, scarf_top = 0, scarf_slope = 0;

private:
  double shaft_depth(double x) const;
  void place_ends();
  void place_scarf();
  void check_channel() const;
  void check_sizes() const;
};

// Smooth step 3t^2 - 2t^3 from 0 to 1, constant outside.
double smooth_step(double t);

// The point of the headstock's face at a distance from the nut along the face, and y.
dealii::Point<3> on_headstock_face(const cases::NeckShape &shape, double distance_along, double y);
} // namespace overbend::mesh
