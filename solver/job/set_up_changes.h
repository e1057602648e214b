// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// What a plan does otherwise than the case asked for, a sentence a thing; empty: nothing.
std::vector<std::string> changes_in_words(const cases::Case &asked, const cases::Case &planned);
} // namespace overbend::solver
