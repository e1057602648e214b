// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

// A shaft glued up from strips side by side, as it lies.
namespace overbend::cases
{
// Width of all strips together, m.
double total_width(const std::vector<Lamination> &strips);

// y of the lines between the strips, from bass to treble, in m: one fewer than strips. All widths
// together lie with their middle on the centre line.
std::vector<double> lines_between(const std::vector<Lamination> &strips);

// "maple", or "3 strips: maple, walnut, maple".
std::string shaft_in_words(const NeckShape &neck);
} // namespace overbend::cases
