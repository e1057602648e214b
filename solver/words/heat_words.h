// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

// How the heat is held, as a shop says it.
namespace overbend::solver
{
// A sentence or two for the steps: "Hold the bar at 65 degC (149 degF), read at fret 6."
std::string how_heat_is_held(const cases::Case &the_case, const cases::Phase &phase);

// In few words, without a full stop: "Bar at 65 degC (149 degF)".
std::string heat_in_short(const cases::Case &the_case, const cases::Phase &phase);

// What the wrap covers, as an order.
std::string wrap_in_words(const cases::Case &the_case);
} // namespace overbend::solver
