// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/case.h"

#include <cmath>

namespace overbend::cases
{
int line_of(const Case &result, const std::string &name)
{
  for (const std::string &place : {name, name.substr(0, name.find('.')), std::string("preset")})
    if (const auto found = result.lines.find(place); found != result.lines.end())
      return found->second;
  return 1;
}

double fret_position(double scale_length, int fret)
{
  return scale_length * (1 - std::exp2(-fret / 12.0));
}
} // namespace overbend::cases
