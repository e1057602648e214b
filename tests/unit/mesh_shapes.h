// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <cmath>
#include <limits>

// Neck shapes for the tests of the mesh, with sizes in the ranges of common practice: no source.
namespace overbend::tests
{
inline double degrees(double value)
{
  return value * 3.14159265358979323846 / 180;
}

inline cases::NeckShape electric_neck()
{
  cases::NeckShape s;
  s.scale_length = 0.648;
  s.frets = 21;
  s.join_fret = 16;
  s.nut_width = 0.042;
  s.width_at_12 = 0.052;
  s.depth_at_1 = 0.021;
  s.depth_at_12 = 0.023;
  s.back_exponent = 2.2;
  s.board_thickness = 0.0058;
  s.board_radius = 0.241;
  s.board_end = 0.012;
  s.headstock = {cases::HeadstockKind::flat, 0, 0.0145, 0.185, 0.085, 0.006, 0, {}};
  s.heel = {cases::HeelKind::bolt_on, 0.019, 0.025, 0.075};
  s.rod.kind = cases::RodKind::single_action;
  s.rod.channel_width = 0.006;
  s.rod.channel_depth = 0.0105;
  s.rod.fillet_depth = 0.0045;
  s.rod.diameter = 0.005;
  return s;
}

inline cases::NeckShape acoustic_neck()
{
  cases::NeckShape s = electric_neck();
  s.frets = 20;
  s.join_fret = 14;
  s.nut_width = 0.0435;
  s.width_at_12 = 0.055;
  s.depth_at_1 = 0.0215;
  s.depth_at_12 = 0.0245;
  s.board_thickness = 0.006;
  s.board_radius = 0.305;
  s.headstock = {cases::HeadstockKind::tilted, degrees(15), 0.014, 0.19, 0.075, 0, 0, {}};
  s.heel = {cases::HeelKind::heel, 0.095, 0.045, 0};
  s.rod.kind = cases::RodKind::two_way;
  s.rod.fillet_depth = 0;
  return s;
}

inline cases::NeckShape scarf_neck()
{
  cases::NeckShape s = acoustic_neck();
  s.headstock = {cases::HeadstockKind::scarf, degrees(14), 0.014, 0.19, 0.075, 0, 0.0, {}};
  s.rod = electric_neck().rod;
  return s;
}

inline cases::NeckShape classical_neck()
{
  cases::NeckShape s = acoustic_neck();
  s.scale_length = 0.65;
  s.frets = 19;
  s.join_fret = 12;
  s.nut_width = 0.052;
  s.width_at_12 = 0.062;
  s.depth_at_1 = 0.022;
  s.depth_at_12 = 0.0245;
  s.board_thickness = 0.0065;
  s.board_radius = std::numeric_limits<double>::infinity();
  s.headstock = {cases::HeadstockKind::scarf, degrees(14), 0.018, 0.2, 0.075, 0, 0.0, {}};
  s.heel = {cases::HeelKind::heel, 0.09, 0.04, 0};
  s.rod = {};
  return s;
}

inline cases::NeckShape bass_neck()
{
  cases::NeckShape s = electric_neck();
  s.scale_length = 0.864;
  s.frets = 20;
  s.nut_width = 0.042;
  s.width_at_12 = 0.058;
  s.depth_at_1 = 0.021;
  s.depth_at_12 = 0.0245;
  s.headstock.length = 0.23;
  s.headstock.width = 0.09;
  s.heel.pocket = 0.08;
  return s;
}

inline cases::NeckShape barred_neck()
{
  cases::NeckShape s = scarf_neck();
  s.rod = {};
  s.rod.kind = cases::RodKind::bonded_bar;
  s.rod.channel_width = 0.01;
  s.rod.channel_depth = 0.01;
  s.headstock.scarf_start = 0.02;
  return s;
}
} // namespace overbend::tests
