// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/strength/region.h"

#include <optional>
#include <string>

namespace overbend::solver
{
// What stops a pass short of its target. strength: of the wood, a bond, or the back under the
// cradle's pad (the place names it). fast_line: a line as fast as its spread allows would end
// further back than the rod can mend.
enum class Limit {
  none,
  cord_pull,
  tuner_pull,
  strength,
  overbend,
  twist_out_of_reach,
  line_does_not_move,
  fast_line
};

// When in a pass: the cold pull, or the overbend and all that follows it.
enum class Moment { cold, hot };

// What a correction asks of bench and neck, as a share of what it may bear: 1 is at the limit.
struct Demand
{
  Limit limit = Limit::none;
  double share = 0;
  std::string place; // for people: the region of the neck, or the pull
  Moment moment = Moment::hot;
  double asked = 0, bears = 0;       // N for pulls, m for the overbend, shares of strength
  std::optional<Region> region = {}; // where it is one of strength
};
} // namespace overbend::solver
