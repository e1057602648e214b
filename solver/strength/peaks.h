// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat.h"
#include "solver/strength/region.h"
#include "solver/strength/stress_means.h"

#include <array>
#include <limits>
#include <map>
#include <string>
#include <vector>

namespace overbend::solver
{
// The most that a region has been used, with where and when.
struct Peak
{
  double value = 0; // share of strength; of wood under a load held as long as this
  Vec3 place{};
  double time = 0;
  unsigned phase = 0;
  std::string mode;
  double shear = 0;   // of a glue line: the shear that makes the share, Pa
  double held = 0;    // of wood: how long by then, s
  double hot_for = 0; // of a glue line: how long by then its hottest place had been soft, s
};

// The share of strength from which a peak is refused, and from which it is told. A glue that flows
// bears less once its line has been soft for longer than WorkLimits::bond_hot_time.
double refused_from(Region region, const Peak &peak, const materials::WorkLimits &limits);
double caution_from(Region region, const materials::WorkLimits &limits);

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

using RegionUse = std::map<Region, Peak>;

// How much of its strength each region of the wood uses in one state: the most used box of
// StressMeans, at the temperature and moisture (empty: as built) of the place, as in a test of 5
// minutes. Time and phase stay 0.
RegionUse wood_use(const Model &model, const StressMeans &means, const MechanicsState &state,
                   const std::vector<double> &temperature,
                   const std::vector<double> &moisture = {});

// Share of its bond's strength that a glue line uses by its largest shear over 10 mm, at the
// hottest place of the line; value 0 for a line without points or shear.
Peak line_use(const Model &model, const LineEnds &ends, unsigned line,
              const std::vector<double> &temperature);

// What might give: watched over a history. Shares of strength are of the Norris criterion at the
// temperature and moisture of the place (no moisture given: as built), of wood that has borne as
// much for as long as it has; glue shear against the bond's strength at its temperature.
class Peaks
{
public:
  Peaks() = default;
  Peaks(const Model &model, const materials::WorkLimits &limits);
  void watch(const Model &model, const StressMeans &means, const MechanicsState &state,
             const std::vector<double> &temperature, double time, unsigned phase,
             const std::vector<double> &moisture = {});
  // A region of the wood as it is used at one moment, in a test of 5 minutes.
  void note(Region region, Peak peak);

  RegionUse use;                                  // of the whole history, nearest to its limit
  std::map<unsigned, RegionUse> in_phase;         // the same of each phase
  double hottest_glue = 0, hottest_board_top = 0; // K
  std::vector<LineEnds> line;                     // of the last state watched
  std::vector<std::string> missing;               // strengths that no source gives

private:
  void raise(Region region, const Peak &peak);
  void watch_line(const Model &model, unsigned line, const std::vector<double> &temperature,
                  double time, unsigned phase);

  static constexpr double never = std::numeric_limits<double>::infinity();
  double hot_time = never, hot_share = 1; // of WorkLimits; what is refused hot over what is cold
  std::map<Region, materials::HeldLoad> load;
  std::vector<double> soft_since; // s, of each glue line
};
} // namespace overbend::solver
