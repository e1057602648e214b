// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case.h"

#include <string>
#include <vector>

namespace overbend::cases
{
// Names and other accepted names that the tables hold. The cases know no tables; whoever has read
// them passes the names.
struct KnownNames
{
  std::vector<std::string> woods, glues, string_sets, tuners;
};

// Throws CaseError at the line of the first name in the case that is not known, with the nearest
// known one. Blanks, hyphens and capitals do not matter. Unknown glues are not names.
void check_names(const Case &result, const KnownNames &known);
} // namespace overbend::cases
