// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

// Small pieces of what is typed into the questionnaire.
namespace overbend::cases
{
// Takes the fret off the front of a gap and leaves the gap: "fret 7 0.45 mm", "7: 0.45 mm",
// "7 = 18 thou". Throws UnitError if it is of no such form.
int take_fret(std::string &text);
} // namespace overbend::cases
