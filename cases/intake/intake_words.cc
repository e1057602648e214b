// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake_words.h"

#include "cases/text/suggest.h"
#include "cases/text/units.h"

namespace overbend::cases
{
int take_fret(std::string &text)
{
  const UnitError unclear("a gap is given with its fret",
                          "write fret and gap, such as \"7 0.45 mm\"; `skip` goes on");
  std::string rest = text;
  if (plain_word(rest).rfind("fret ", 0) == 0)
    rest = trimmed(rest.substr(5));
  std::size_t digits = 0;
  while (digits < rest.size() && rest[digits] >= '0' && rest[digits] <= '9')
    ++digits;
  const std::string between = " :=\t";
  if (digits == 0 || digits > 2 || digits == rest.size() ||
      between.find(rest[digits]) == std::string::npos)
    throw unclear;
  const std::size_t gap = rest.find_first_not_of(between, digits);
  if (gap == std::string::npos)
    throw unclear;
  text = rest.substr(gap);
  return std::stoi(rest.substr(0, digits));
}
} // namespace overbend::cases
