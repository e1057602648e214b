// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/climate/heat.h"
#include "solver/model/model.h"

#include <optional>

// Where a heated neck is hottest, each place that has a limit of its own, and what its line has
// when the probe shows a figure. All from a history of heat alone: nothing has to be clamped first.
namespace overbend::solver
{
struct HottestPlace
{
  double temperature = 0; // K; 0: there is no such place
  double x = 0, y = 0;    // m
  double time = 0;        // s since the start of the first phase
};

// Of a fret top's temperature, the share that is the bar's, the rest being that of the wood around
// its foot: the crown passes its heat through a line of metal on metal, some 0.3 mm wide at 3000
// W/(m^2 K), the foot through wood of 0.2 W/(m K) that spreads from 2.4 mm, 0.9 against 0.26 W/K
// for a metre of fret. An estimate [E].
constexpr double fret_share_of_bar = 0.78;

struct HottestPlaces
{
  HottestPlace line;         // the board's glue line, the tongue's with it
  HottestPlace surface;      // top of the board
  HottestPlace fret_tops;    // of frets under the bar; none where they are out
  HottestPlace bar;          // on the bar: under the iron
  HottestPlace under_cradle; // the back where the cradle's pad bears, while the cradle is on
  HottestPlace scarf;        // the scarf's glue line
};

// Over the whole history, which begins with the case's first phase.
HottestPlaces hottest_places(const Model &model, const cases::Case &the_case,
                             const ThermalHistory &heat);

// The board's line at one time, beside what the thermometers show then. All K.
struct LineHeat
{
  double time = 0, air = 0;
  double probe = 0;
  std::optional<double> bar; // at its sensor
  double hottest = 0, hottest_x = 0, hottest_y = 0;
  double mean = 0, coldest = 0; // over the area of the line
  double under_iron = 0;        // the warmest glue under the middle of the iron
  double middle = 0, edge = 0;  // at the probe's x: the warmest glue, mean of both edges

  // By how much a probe at the edge of the line shows less than the middle beside it has.
  double edge_under_reads() const { return middle - edge; }
  // What a place with `value` now has when the probe shows `shown`, with the same bench in the same
  // air: excess over the air grows in proportion (exact but for radiation, some 2 % of the excess
  // for 10 K).
  double when_probe_shows(double shown, double value) const
  {
    return air + (value - air) * (shown - air) / (probe - air);
  }
};

// At a time within the history; throws std::runtime_error if the probe is off the neck.
LineHeat line_heat(const Model &model, const cases::Case &the_case, const ThermalHistory &heat,
                   double time);

// The end of the last phase that is heated and clamped, or heated at all; empty without heat.
std::optional<double> end_of_heat(const cases::Case &the_case);
} // namespace overbend::solver
