// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/intake/gaps.h"

#include <string>

namespace overbend::cases
{
// The line under the straightedge as rows of letters, nut end first: strings above, back below. The
// row of dashes is the chord over the rest frets; O is a reading, dots join them by straight lines.
// Before both rests are read the edge itself takes the chord's place. The last line states the
// scale of rows and columns and how many times heights are drawn too large against lengths.
// Empty without readings.
std::string gap_curve(const Gaps &gaps, double scale_length, Rests rests);
} // namespace overbend::cases
