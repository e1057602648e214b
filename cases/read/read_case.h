// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "cases/text/error.h"

#include <string>

namespace overbend::cases
{
// Reads and checks a case file. Everything in the result is resolved: presets and defaults are
// filled in, positions at frets are lengths, phases are merged, and bow_fret and rest_fret_b are
// real frets. Throws CaseError with the line of the first mistake.
Case read_case(const std::string &path);

// The same from text; `file` is the name used in messages.
Case parse_case(const std::string &text, const std::string &file);

// A case in which every value is that of the preset or the declared default, with a forward bow of
// 1 mm as an example. Throws CaseError for an unknown name.
Case preset_case(const std::string &preset);
} // namespace overbend::cases
