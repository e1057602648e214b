// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

// Worn and high frets as a bench tells them: "5: -2 thou, 9-12: 0.1 mm, 7 treble: -3 thou".
namespace overbend::cases
{
// Frets by number, "5", "1-4" or "1 to 4", with "bass" or "treble" where only that side is meant;
// then a colon and the height against a level set, m within low and high. "level": none. What
// stands later refines what stands before; the same fret and side twice is refused. Throws
// UnitError.
FretHeights parse_fret_heights(const std::string &text, double low, double high);

// The text that is read back as the same heights; "level" without any.
std::string fret_heights_text(const FretHeights &heights);

// For people: "fret 5 -0.05 mm (-2 thou)", sides apart where they differ.
std::string fret_heights_in_words(const FretHeights &heights);
} // namespace overbend::cases
