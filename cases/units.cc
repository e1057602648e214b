// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/units.h"

#include "cases/suggest.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <vector>

namespace overbend::cases
{
namespace
{
struct Unit
{
  Dimension dimension;
  const char *name;   // as shown
  long double factor; // SI value of one
  long double offset; // added before the factor: zero point of a temperature scale
};

constexpr long double inch = 0.0254L, kgf = 9.80665L, lbf = 4.4482216152605L;
constexpr long double one_degree = 3.14159265358979323846264338327950288L / 180;

// Exact by definition: inch, pound and kilogram-force, the zero points of the scales (SI brochure,
// 9th edition, and NIST SP 811, appendix B.8 [M]). The first of a dimension is the usual one.
const std::vector<Unit> &units()
{
  static const std::vector<Unit> table = {
      {Dimension::fraction, "%", 0.01L, 0},
      {Dimension::fraction, "percent", 0.01L, 0},
      {Dimension::slope, "%", 0.01L, 0},
      {Dimension::slope, "percent", 0.01L, 0},
      {Dimension::slope, "deg", one_degree, 0},
      {Dimension::length, "mm", 1e-3L, 0},
      {Dimension::length, "cm", 1e-2L, 0},
      {Dimension::length, "m", 1, 0},
      {Dimension::length, "in", inch, 0},
      {Dimension::length, "thou", inch / 1000, 0},
      {Dimension::angle, "deg", one_degree, 0},
      {Dimension::angle, "rad", 1, 0},
      {Dimension::time, "s", 1, 0},
      {Dimension::time, "min", 60, 0},
      {Dimension::time, "h", 3600, 0},
      {Dimension::time, "day", 86400, 0},
      {Dimension::time, "days", 86400, 0},
      {Dimension::time, "week", 604800, 0},
      {Dimension::time, "weeks", 604800, 0},
      {Dimension::time, "year", 31557600, 0}, // Julian year, 365.25 days
      {Dimension::time, "years", 31557600, 0},
      {Dimension::temperature, "degC", 1, 273.15L},
      {Dimension::temperature, "degF", 5 / 9.0L, 459.67L},
      {Dimension::temperature, "K", 1, 0},
      {Dimension::temperature_difference, "K", 1, 0},
      {Dimension::temperature_difference, "degC", 1, 0},
      {Dimension::temperature_difference, "degF", 5 / 9.0L, 0},
      {Dimension::force, "N", 1, 0},
      {Dimension::force, "kgf", kgf, 0},
      {Dimension::force, "lbf", lbf, 0},
      {Dimension::torque, "N m", 1, 0},
      {Dimension::pressure, "MPa", 1e6L, 0},
      {Dimension::pressure, "GPa", 1e9L, 0},
      {Dimension::pressure, "Pa", 1, 0},
      {Dimension::stiffness, "N/mm", 1e3L, 0},
      {Dimension::stiffness, "N/m", 1, 0},
      {Dimension::turning_stiffness, "N m/rad", 1, 0},
      {Dimension::turning_stiffness, "N m/deg", 1 / one_degree, 0},
      {Dimension::bedding, "N/mm3", 1e9L, 0},
      {Dimension::bedding, "N/m3", 1, 0},
      {Dimension::power, "W", 1, 0},
      {Dimension::conductance, "W/(m2 K)", 1, 0},
      {Dimension::frequency, "Hz", 1, 0},
  };
  return table;
}

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

const char *example(Dimension dimension)
{
  switch (dimension) {
  case Dimension::number:
    return "2.2";
  case Dimension::fraction:
    return "45 %";
  case Dimension::slope:
    return "5 %";
  case Dimension::length:
    return "0.5 mm";
  case Dimension::angle:
    return "14 deg";
  case Dimension::time:
    return "25 min";
  case Dimension::temperature:
    return "48 degC";
  case Dimension::temperature_difference:
    return "5 K";
  case Dimension::force:
    return "12 kgf";
  case Dimension::torque:
    return "3 N m";
  case Dimension::pressure:
    return "10 MPa";
  case Dimension::stiffness:
    return "30 N/mm";
  case Dimension::turning_stiffness:
    return "3000 N m/rad";
  case Dimension::bedding:
    return "2 N/mm3";
  case Dimension::power:
    return "100 W";
  case Dimension::conductance:
    return "8 W/(m2 K)";
  case Dimension::frequency:
    return "110 Hz";
  }
  return "";
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
  if (unit.empty())
    throw UnitError(quoted(text) + " has no unit", how_to_write(dimension));
  std::vector<std::string> accepted;
  for (const Unit &known : units()) {
    if (known.dimension == dimension)
      accepted.push_back(known.name);
  }
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

std::string rounded(double value, int decimals)
{
  std::array<char, 64> text{};
  const double scale = std::pow(10.0, decimals);
  const double clean = std::round(value * scale) == 0 ? 0 : value; // never "-0.00"
  std::snprintf(text.data(), text.size(), "%.*f", decimals, clean);
  return text.data();
}
} // namespace

std::string in_words(Dimension dimension)
{
  switch (dimension) {
  case Dimension::number:
    return "a number";
  case Dimension::fraction:
    return "a percentage";
  case Dimension::slope:
    return "a slope of the grain";
  case Dimension::length:
    return "a length";
  case Dimension::angle:
    return "an angle";
  case Dimension::time:
    return "a time";
  case Dimension::temperature:
    return "a temperature";
  case Dimension::temperature_difference:
    return "a temperature difference";
  case Dimension::force:
    return "a force";
  case Dimension::torque:
    return "a torque";
  case Dimension::pressure:
    return "a pressure";
  case Dimension::stiffness:
    return "a stiffness";
  case Dimension::turning_stiffness:
    return "a turning stiffness";
  case Dimension::bedding:
    return "a pad stiffness";
  case Dimension::power:
    return "a power";
  case Dimension::conductance:
    return "a heat conductance";
  case Dimension::frequency:
    return "a frequency";
  }
  return "";
}

std::string accepted_units(Dimension dimension)
{
  std::vector<std::string> names;
  for (const Unit &unit : units())
    if (unit.dimension == dimension)
      names.push_back(unit.name);
  if (dimension == Dimension::slope)
    names.push_back("\"1 in 20\"");
  return listed(names, "or");
}

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

namespace
{
// Shortest decimal number in this unit that parses back to the value; empty if there is none.
std::string shortest(double value, Dimension dimension, const std::string &unit, long double factor,
                     long double offset)
{
  const long double number = static_cast<long double>(value) / factor - offset;
  for (int digits = 1; digits <= 21; ++digits) {
    std::array<char, 64> buffer{};
    std::snprintf(buffer.data(), buffer.size(), "%.*Lg", digits, number);
    const std::string text = std::string(buffer.data()) + (unit.empty() ? "" : " " + unit);
    const bool readable = text.find('e') == std::string::npos || digits > 17;
    if (readable && parse_quantity(text, dimension) == value)
      return text;
  }
  return "";
}
} // namespace

std::string exact_text(double value, Dimension dimension)
{
  if (dimension == Dimension::number)
    return shortest(value, dimension, "", 1, 0);
  std::string best;
  const auto better = [&best](const std::string &text) {
    return !text.empty() && (best.empty() || text.size() < best.size());
  };
  for (const Unit &unit : units()) {
    if (unit.dimension != dimension || unit.factor == inch || unit.factor == inch / 1000)
      continue;
    if (dimension == Dimension::slope && unit.factor == one_degree)
      continue;
    const std::string text = shortest(value, dimension, unit.name, unit.factor, unit.offset);
    const bool usual = best.empty(); // the first unit wins unless it does not come out even
    if (usual || dimension == Dimension::time || best.size() > 12) {
      if (better(text))
        best = text;
    }
  }
  return best;
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

std::string all_forces(double newtons)
{
  return rounded(newtons, 0) + " N (" + rounded(newtons / 9.80665, 1) + " kgf, " +
         rounded(newtons / 4.4482216152605, 1) + " lbf)";
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
