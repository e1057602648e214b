// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

namespace overbend::viz
{
using Colour = std::array<double, 3>; // red, green, blue, 0 to 1

// The map "cividis" at a share from 0 to 1 (beyond: the ends): its lightness grows evenly, so it
// reads the same in grey and to eyes that do not tell red from green. Ten colours of it with
// straight lines between. Source: Nunez, Anderton, Renslow, PLoS ONE 13 (2018) e0199239 [M]; the
// ten colours as in widespread plotting libraries [S].
Colour cividis(double share);

// For signed amounts, from -1 to 1 (beyond: the ends): blue below zero, light grey at zero, brown
// above; the same amount has the same lightness on both sides. Mixed for this program.
Colour blue_to_brown(double share);

// Of a limit that is passed: lies on neither map.
constexpr Colour over_the_limit = {0.85, 0.0, 0.55};

// Relative luminance of a colour (ITU-R BT.709 weights on linear light), 0 to 1.
double luminance(const Colour &colour);

// The next number at or above a positive value that reads well: 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8 times
// a power of ten. 0 for 0.
double round_up(double value);
} // namespace overbend::viz
