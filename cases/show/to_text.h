// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

namespace overbend::cases
{
// The whole case as a case file in which nothing is left to presets or defaults and every phase is
// listed. Read again it gives the same case to the last bit, but for the members text, file and
// lines and the lines of the phases.
std::string to_text(const Case &result);
} // namespace overbend::cases
