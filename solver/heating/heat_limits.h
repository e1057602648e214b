// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"

#include <string>

namespace overbend::solver
{
// Where trouble starts and where to stop for a finish, K (finishes.toml); neither is above the
// hottest that any surface of a neck may get (limits.toml).
struct FinishLimit
{
  double trouble, stop;
  std::string name;
};
FinishLimit finish_limit(cases::Finish kind, const materials::Tables &tables);

// Where heat has to stop for this instrument, K, and what sets it: surfaces by finish and binding
// (trade [T], safety facts [E]), the board's line by its glue.
// fret_tops: they touch the bar and stand clear of finish and binding. Where glue, finish or
// binding is not known, all stop lower (limits.toml).
struct HeatLimits
{
  double surface = 0, glue_line = 0, fret_tops = 0;
  std::string surface_reason, glue_reason, fret_reason;
  double back = 0; // under the cradle: where the finish there takes the print of a pad
  std::string back_reason;
};
HeatLimits heat_limits(const cases::Case &the_case, const materials::Tables &tables);

// Whether any phase is heated.
bool is_heated(const cases::Case &the_case);
} // namespace overbend::solver
