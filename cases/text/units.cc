// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/units.h"

#include "cases/text/suggest.h"
#include "cases/text/unit_table.h"

#include <charconv>
#include <cmath>
#include <vector>

namespace overbend::cases
{
namespace
{
// Spaces, brackets, powers and dots carry no meaning in a unit: "W/(m^2 K)" and "W/m2K" are one.
std::string bare_unit(std::string unit)
{
  for (const std::string mark : {" ", "(", ")", "^", "*", "\u00b7"})
    for (std::size_t at = unit.find(mark); at != std::string::npos; at = unit.find(mark))
      unit.erase(at, mark.size());
  const std::string degree_sign = "\u00b0";
  if (unit.rfind(degree_sign, 0) == 0)
    unit = "deg" + unit.substr(degree_sign.size());
  return unit;
}

std::string quoted(const std::string &text)
{
  constexpr std::size_t shown = 60;
  return "\"" + (text.size() > shown ? text.substr(0, shown) + "..." : text) + "\"";
}

std::string how_to_write(Dimension dimension)
{
  if (dimension == Dimension::number)
    return std::string("write a bare number such as ") + example(dimension);
  return "write " + in_words(dimension) + " with its unit (" + accepted_units(dimension) +
         "), such as \"" + example(dimension) + "\"";
}

// Takes one unsigned decimal number off the front; false if there is none.
bool take_decimal(const char *&at, const char *end, long double &value)
{
  if (at == end || !((*at >= '0' && *at <= '9') || *at == '.'))
    return false;
  const auto [next, error] = std::from_chars(at, end, value);
  if (error != std::errc())
    return false;
  at = next;
  return true;
}

// Takes "/16" off the front; false if there is none.
bool take_denominator(const char *&at, const char *end, long double &value)
{
  if (at == end || *at != '/')
    return false;
  const char *ahead = at + 1;
  if (!take_decimal(ahead, end, value))
    return false;
  at = ahead;
  return true;
}

void skip_blanks(const char *&at, const char *end)
{
  while (at != end && (*at == ' ' || *at == '\t'))
    ++at;
}

// The number at the front of the text, a decimal or a (mixed) fraction. `at` is left behind it.
long double take_number(const char *&at, const char *end, const std::string &text,
                        Dimension dimension)
{
  const auto malformed = [&]() -> UnitError {
    if (text.find(',') != std::string::npos)
      return {quoted(text) + " has a comma in its number", "write a decimal point"};
    return {quoted(text) + " is not " + in_words(dimension), how_to_write(dimension)};
  };
  skip_blanks(at, end);
  const bool negative = at != end && *at == '-';
  if (at != end && (*at == '-' || *at == '+'))
    ++at;
  skip_blanks(at, end);
  long double number = 0, numerator = 0, denominator = 1;
  if (!take_decimal(at, end, number))
    throw malformed();
  if (take_denominator(at, end, denominator)) {
    number /= denominator;
  } else {
    const char *ahead = at;
    while (ahead != end && (*ahead == ' ' || *ahead == '-'))
      ++ahead;
    if (ahead != at && take_decimal(ahead, end, numerator) &&
        take_denominator(ahead, end, denominator)) {
      number += numerator / denominator;
      at = ahead;
    }
  }
  if (!std::isfinite(number))
    throw UnitError(quoted(text) + " is not a finite number", how_to_write(dimension));
  if (at != end && *at == ',')
    throw malformed();
  skip_blanks(at, end);
  return negative ? -number : number;
}

[[noreturn]] void refuse_unit(const std::string &text, const std::string &unit, Dimension dimension)
{
  std::vector<std::string> accepted;
  for (const Unit &known : units())
    if (known.dimension == dimension)
      accepted.push_back(known.name);
  if (unit.empty())
    throw UnitError(quoted(text) + " has no unit", "write " + in_words(dimension) +
                                                       " with its unit (" +
                                                       accepted_units(dimension) + "), such as " +
                                                       quoted(text + " " + accepted.front()));
  for (const Unit &known : units())
    if (bare_unit(known.name) == bare_unit(unit))
      throw UnitError(quoted(text) + " is " + in_words(known.dimension) + " where " +
                          in_words(dimension) + " is due",
                      how_to_write(dimension));
  for (const std::string &name : accepted)
    if (plain_word(name) == plain_word(unit) || edit_distance(name, unit) == 1)
      throw UnitError(quoted(text) + " has the unknown unit " + quoted(unit),
                      "did you mean \"" + name + "\"?");
  throw UnitError(quoted(text) + " has the unknown unit " + quoted(unit), how_to_write(dimension));
}

// Slope of the grain as "1 in 20"; 0 if the text is not of this form.
bool slope_as_ratio(const std::string &unit, long double number, double &value)
{
  if (unit.rfind("in ", 0) != 0)
    return false;
  const char *at = unit.data() + 3, *end = unit.data() + unit.size();
  long double run = 0;
  skip_blanks(at, end);
  if (!take_decimal(at, end, run) || at != end || run <= 0)
    return false;
  value = static_cast<double>(number / run);
  return true;
}

} // namespace

double parse_quantity(const std::string &text, Dimension dimension)
{
  const char *at = text.data(), *end = text.data() + text.size();
  const long double number = take_number(at, end, text, dimension);
  std::string unit(at, end);
  while (!unit.empty() && (unit.back() == ' ' || unit.back() == '\t'))
    unit.pop_back();
  if (dimension == Dimension::number) {
    if (!unit.empty())
      throw UnitError(quoted(text) + " has a unit where a bare number is due",
                      how_to_write(dimension));
    return static_cast<double>(number);
  }
  double value = 0;
  if (dimension == Dimension::slope && slope_as_ratio(unit, number, value))
    return value;
  for (const Unit &known : units()) {
    if (known.dimension != dimension || bare_unit(known.name) != bare_unit(unit))
      continue;
    const long double si = (number + known.offset) * known.factor;
    value = static_cast<double>(si);
    if (dimension == Dimension::slope && known.factor == one_degree)
      value = static_cast<double>(std::tan(si));
    if (!std::isfinite(value))
      throw UnitError(quoted(text) + " is not a finite number", how_to_write(dimension));
    if (dimension == Dimension::temperature && value < 0)
      throw UnitError(quoted(text) + " is below absolute zero", how_to_write(dimension));
    return value;
  }
  refuse_unit(text, unit, dimension);
}
} // namespace overbend::cases
