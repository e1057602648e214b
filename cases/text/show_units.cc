// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/unit_table.h"
#include "cases/text/units.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace overbend::cases
{
namespace
{
std::string rounded(double value, int decimals)
{
  std::array<char, 64> text{};
  const double scale = std::pow(10.0, decimals);
  const double clean = std::round(value * scale) == 0 ? 0 : value; // never "-0.00"
  std::snprintf(text.data(), text.size(), "%.*f", decimals, clean);
  return text.data();
}
// Shortest decimal number in this unit that gives exactly the value; empty if there is none.
std::string shortest(double value, long double factor, long double offset)
{
  const long double number = static_cast<long double>(value) / factor - offset;
  for (int digits = 1; digits <= 21; ++digits) {
    std::array<char, 64> buffer{};
    const int length = std::snprintf(buffer.data(), buffer.size(), "%.*Lg", digits, number);
    const std::string text(buffer.data(), static_cast<std::size_t>(length));
    const bool readable = text.find('e') == std::string::npos || digits > 17;
    long double read = 0;
    std::from_chars(text.data(), text.data() + text.size(), read);
    if (readable && static_cast<double>((read + offset) * factor) == value)
      return text;
  }
  return "";
}

// Units of the program's own texts: not the inch, which never comes out even in mm, and for the
// slope of the grain not the angle, whose tangent rounds.
bool printed(const Unit &unit)
{
  const bool angle_of_slope = unit.dimension == Dimension::slope && unit.factor == one_degree;
  return unit.factor != inch && unit.factor != inch / 1000 && !angle_of_slope;
}
} // namespace

// The usual unit stands unless the number becomes long in it; times take the unit that makes the
// shortest text, the largest if there are several.
std::string exact_text(double value, Dimension dimension)
{
  if (dimension == Dimension::number)
    return shortest(value, 1, 0);
  constexpr std::size_t long_text = 12;
  const bool time = dimension == Dimension::time;
  std::string best;
  for (const Unit &unit : units()) {
    if (unit.dimension != dimension || !printed(unit))
      continue;
    const std::string number = shortest(value, unit.factor, unit.offset);
    const std::string text = number + " " + unit.name;
    const bool shorter = time ? text.size() <= best.size() : text.size() < best.size();
    if (!number.empty() && (best.empty() || (shorter && (time || best.size() > long_text))))
      best = text;
  }
  return best;
}

std::string short_text(double value, Dimension dimension)
{
  const Unit *usual = nullptr;
  for (const Unit &unit : units()) {
    const double number = value / static_cast<double>(unit.factor);
    const bool first = usual == nullptr && unit.dimension == dimension;
    const bool comes_out_even = dimension == Dimension::time && unit.dimension == dimension &&
                                number >= 1 && number == std::floor(number);
    const bool plural = usual != nullptr && usual->name + std::string("s") == unit.name;
    if (first || (comes_out_even && plural == (plural && number > 1)))
      usual = &unit;
  }
  const double factor = usual == nullptr ? 1 : static_cast<double>(usual->factor);
  const double offset = usual == nullptr ? 0 : static_cast<double>(usual->offset);
  std::array<char, 64> number{};
  std::snprintf(number.data(), number.size(), "%.9g", value / factor - offset);
  return number.data() + (usual == nullptr ? "" : std::string(" ") + usual->name);
}

std::string both_lengths(double metres)
{
  const double mm = metres * 1e3, thou = metres / 25.4e-6;
  if (std::abs(mm) >= 10)
    return rounded(mm, 1) + " mm (" + rounded(thou / 1000, 2) + " in)";
  return rounded(mm, 2) + " mm (" + rounded(thou, std::abs(thou) < 10 ? 1 : 0) + " thou)";
}

std::string both_temperatures(double kelvin)
{
  const double celsius = kelvin - 273.15;
  return rounded(celsius, 0) + " degC (" + rounded(celsius * 1.8 + 32, 0) + " degF)";
}

std::string both_temperature_differences(double kelvin)
{
  return rounded(kelvin, 0) + " degC (" + rounded(kelvin * 1.8, 0) + " degF)";
}

std::string all_forces(double newtons)
{
  return rounded(newtons, 0) + " N (" + rounded(newtons / 9.80665, 1) + " kgf, " +
         rounded(newtons / 4.4482216152605, 1) + " lbf)";
}

namespace
{
// Both ways of saying it, the metric one first and the other in brackets; empty for dimensions that
// have one unit in the trade.
std::string both(double value, Dimension dimension)
{
  switch (dimension) {
  case Dimension::length: {
    constexpr double least = 1e-6; // below it a tenth of a thou says nothing
    std::array<char, 64> small{};
    std::snprintf(small.data(), small.size(), "%.2g mm (%.2g thou)", value * 1e3, value / 25.4e-6);
    return value != 0 && std::abs(value) < least ? small.data() : both_lengths(value);
  }
  case Dimension::temperature:
    return both_temperatures(value);
  case Dimension::temperature_difference:
    return both_temperature_differences(value);
  case Dimension::force:
    return all_forces(value);
  case Dimension::stiffness:
    return rounded(value / 1000, 0) + " N/mm (" + rounded(value * 25.4e-3 / 4.4482216152605, 0) +
           " lbf/in)";
  default:
    return "";
  }
}
} // namespace

std::string typed_in_both(const std::string &text, Dimension dimension)
{
  double value = 0;
  try {
    value = parse_quantity(text, dimension);
  } catch (const UnitError &) {
    return text; // a word, or a place
  }
  const std::string told = both(value, dimension);
  if (told.empty())
    return text;
  const std::size_t bracket = told.find(" (");
  const auto unit = [](const std::string &words) { return words.substr(words.rfind(' ') + 1); };
  // Typed in the metric unit: the other one follows. Typed in any other: the metric one.
  const bool kelvin = dimension == Dimension::temperature_difference && unit(text) == "K";
  return kelvin || unit(text) == unit(told.substr(0, bracket))
             ? text + told.substr(bracket)
             : text + " (" + told.substr(0, bracket) + ")";
}

std::string degrees(double radians)
{
  return rounded(radians / static_cast<double>(one_degree), 2) + " deg";
}

std::string clock(double seconds)
{
  if (seconds < 0)
    return "-" + clock(-seconds);
  if (seconds < 59.5)
    return rounded(seconds, 0) + " s";
  const auto pair = [](long large, const char *large_name, long small, const char *small_name) {
    std::string text = large > 0 ? std::to_string(large) + " " + large_name : "";
    if (small > 0)
      text += (large > 0 ? " " : "") + std::to_string(small) + " " + small_name;
    return text;
  };
  const long minutes = std::lround(seconds / 60);
  if (minutes < 48 * 60)
    return pair(minutes / 60, "h", minutes % 60, "min");
  const long hours = std::lround(seconds / 3600);
  if (hours < 2 * 365 * 24)
    return pair(hours / 24, "days", hours % 24, "h");
  return rounded(seconds / 31557600, 1) + " years";
}
} // namespace overbend::cases
