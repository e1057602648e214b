// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"

#include <vector>

namespace overbend::solver
{
// What gives first when a pull is drawn too hard.
enum class PullBound { cord, post, strap, bar, caul };

struct PullLimit
{
  double caution = 0, refuse = 0; // N, of the whole pull; of a couple, of the force at each end
  PullBound bound = PullBound::cord;
};

// Limits of each pull of the case's device (device_pulls), with n cords that share a pull alike:
//   posts: n times the least of bench.cord_limit and of what its posts bear (materials::post_limit,
//     from the tension that the set the neck lived under puts on each of them);
//   strap: bench.strap_limit;  caul: bench.caul_limit;
//   an end of the bar: the lesser of bench.cord_limit and bench.bar_moment over the arm.
// Caution stands at four fifths of what a cord, strap, bar or caul may carry [E].
std::vector<PullLimit> pull_limits(const cases::Case &the_case, const materials::Tables &tables);

// "cord", "tuner", "strap", "bar", "caul".
const char *bound_in_words(PullBound bound);
} // namespace overbend::solver
