// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/clamp_setting.h"
#include "solver/readings/reading.h"

#include <vector>

// A second hot reading, halfway through the hold, with the clamp as it is.
//
// Nobody knows beforehand how fast a glue line slips, but in the clamp it shows: a fast line has
// given way by then and the neck has run on with it, a slow one has not moved. A line that is still
// soft follows what pulls on it. So a fast line need not hold the first pass back: the pass aims as
// the middle line needs it, and where the neck has run on further than the middle line lets it, the
// clamp is let up to where that line ends on target. Electric neck, 1 mm, yellow glue at 57 degC,
// clamped to 1.90 mm past straight, two hours later: slow 1.91, middle 1.94, halfway to fast 2.23,
// fast 2.25 mm; left alone, strung: +1.12, +0.45, -0.71, -0.95 mm; let up to 0.47 and 0.64 mm, the
// last two: +0.21 and +0.19 mm [C] (this program, `simulate`, resolution 0.5).
namespace overbend::solver
{
// What a line that is faster than the middle one asks for then.
struct LetUp
{
  double place = 1; // of the line (materials::place_in_spread)
  Reading seen;     // in the clamp, before anything is let up; as the bench reads it
  ClampSetting to;  // as the model reads
  Reading left;     // strung, at the date asked, if nothing were let up; as the bench reads it
  Reading strung;   // and if it is let up so
};

struct SecondReading
{
  Reading slow, middle;      // in the clamp, as the bench reads it: left as it is
  std::vector<LetUp> faster; // in the order of their places
};
} // namespace overbend::solver
