// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat.h"
#include "solver/mechanics/mechanics.h"

#include <array>
#include <map>
#include <string>
#include <vector>

namespace overbend::solver
{
// The most that a region has been used, with where and when.
struct Peak
{
  double value = 0;
  Vec3 place{};
  double time = 0;
  unsigned phase = 0;
  std::string mode;
  double shear = 0; // of a glue line: the shear that makes the share, Pa
};

// Slip of a glue line at its ends and the shear it carries, m and Pa (mean over 10 mm).
struct LineEnds
{
  double slip_nut_end = 0, slip_body_end = 0;   // along the line, upper side against lower
  double shear_nut_end = 0, shear_body_end = 0; // along the line, mean over the last 10 mm
  double shear = 0, shear_x = 0;                // largest amount of a mean over 10 mm, and where
};

// A point of a glue line: how far along the line it lies (m, from any origin), its place along the
// neck, the area it stands for, and slip (m) and shear (Pa) along the line.
struct LinePoint
{
  double along = 0, x = 0, area = 0, slip = 0, shear = 0;
};

// Slip within 1 mm of either end, and shear as the mean over the width and 10 mm along the line, at
// its ends and where it is largest (windows 5 mm apart). A line without points has none of either.
LineEnds line_ends(std::vector<LinePoint> points);

// The same of a glue line in one state.
LineEnds line_ends(const Model &model, const MechanicsState &state, unsigned line);

// How much of its strength each region of the wood uses in one state: the largest mean over a cell,
// at the temperature and moisture (empty: as built) of the cell, by the names of the pieces and
// "headstock root". Time and phase stay 0. Of a cell of two strips each wood counts by itself.
std::map<std::string, Peak> wood_use(const Model &model, const MechanicsState &state,
                                     const std::vector<double> &temperature,
                                     const std::vector<double> &moisture = {});

// Share of its bond's strength that a glue line uses by its largest shear over 10 mm, at the
// hottest place of the line; value 0 for a line without points or shear.
Peak line_use(const Model &model, const LineEnds &ends, unsigned line,
              const std::vector<double> &temperature);

// What might give: watched over a history. Shares of strength are of the Norris criterion at the
// temperature and moisture of the place (no moisture given: as built); glue shear against the
// bond's strength at its temperature.
class Peaks
{
public:
  Peaks() = default;
  explicit Peaks(const Model &model);
  void watch(const Model &model, const MechanicsState &state,
             const std::vector<double> &temperature, double time, unsigned phase,
             const std::vector<double> &moisture = {});

  // By region: the names of the pieces, "headstock root", and "<line> glue line" (share of the
  // bond's strength).
  std::map<std::string, Peak> use;
  double hottest_glue = 0, hottest_board_top = 0; // K
  std::vector<LineEnds> line;                     // of the last state watched
  std::vector<std::string> missing;               // strengths that no source gives
};
} // namespace overbend::solver
