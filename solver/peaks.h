// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/heat.h"
#include "solver/mechanics.h"

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
};

// Slip of a glue line at its ends and the shear it carries, m and Pa (mean over 10 mm).
struct LineEnds
{
  double slip_nut_end = 0, slip_body_end = 0; // along the neck, upper side against lower
  double shear = 0, shear_x = 0;              // largest mean over 10 mm, and where
};

// Slip and shear of a glue line in one state: shear along the neck by x, over the width and a
// window of 10 mm.
LineEnds line_ends(const Model &model, const MechanicsState &state, unsigned line);

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
