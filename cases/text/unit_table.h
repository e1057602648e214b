// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/text/units.h"

#include <string>
#include <vector>

// The table of units, for the files that read and write quantities.
namespace overbend::cases
{
// SI value = (number + offset) * factor.
struct Unit
{
  Dimension dimension;
  const char *name;   // as shown
  long double factor; // SI value of one
  long double offset; // added before the factor: zero point of a temperature scale
};

constexpr long double inch = 0.0254L;
constexpr long double one_degree = 3.14159265358979323846264338327950288L / 180;

// All units; the first of a dimension is the usual one.
const std::vector<Unit> &units();

// A quantity of this dimension as an example: "25 min".
const char *example(Dimension dimension);
} // namespace overbend::cases
