// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"

namespace overbend::solver
{
// Whether the rod can pull the neck forward that went too far back: a working two-way rod.
bool rod_pulls_forward(const cases::Case &the_case);

// Least bow (m), strung at the date asked, at which a line as fast as its spread allows may end:
// none back-bowed where no rod pulls forward, else as far as a rod does without strain.
double least_of_fast_line(const cases::Case &the_case, const materials::WorkLimits &limits);

// Share of the clamped way that a line must keep for the job to end within the passes that are
// left, clamped as far as a neck may be: from bow r (m, strings off), lifted by the strings by
// `lift`, to the relief R,
//   pass one:  w = min(r + M, (r + lift - least_of_fast_line)/(1 - rho)),  r1 = r - k w
//   pass two:  r1 - k (r1 + M) = R - lift
// M is the furthest overbend; the second bound of w is a line that keeps all that a line can
// (1 - rho). With one pass left: r - k (r + M) = R - lift. A neck that
// is at its end needs 0. Source: levers.
double share_needed(const cases::Case &the_case, const materials::WorkLimits &limits, double lift,
                    double rho);
} // namespace overbend::solver
