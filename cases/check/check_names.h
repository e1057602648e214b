// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace overbend::cases
{
// Names and other accepted names that the tables hold. The cases know no tables; whoever has read
// them passes the names.
struct KnownNames
{
  std::vector<std::string> woods, glues, string_sets, tuners;
  // Number of strings of a set; not given: posts are not counted.
  std::function<unsigned(const std::string &)> strings_of = {};
};

// The names that a key takes ("shaft.wood"), and what they are called: one, and all of them.
struct NamesFor
{
  const std::vector<std::string> *known; // of the KnownNames asked
  std::string thing, things;
};
// Nothing for a key that takes no name of a table.
std::optional<NamesFor> names_for(const std::string &key, const KnownNames &known);

// Throws CaseError at the line of the first name in the case that is not known, with the nearest
// known one. Blanks, hyphens and capitals do not matter. Unknown glues are not names. Posts
// that the set has no string for are refused too.
void check_names(const Case &result, const KnownNames &known);
} // namespace overbend::cases
