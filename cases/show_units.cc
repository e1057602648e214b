// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/unit_table.h"
#include "cases/units.h"

#include <array>
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
// Shortest decimal number in this unit that parses back to the value; empty if there is none.
std::string shortest(double value, Dimension dimension, const std::string &unit, long double factor,
                     long double offset)
{
  const long double number = static_cast<long double>(value) / factor - offset;
  for (int digits = 1; digits <= 21; ++digits) {
    std::array<char, 64> buffer{};
    std::snprintf(buffer.data(), buffer.size(), "%.*Lg", digits, number);
    const std::string written = buffer.data();
    const std::string text = written + (unit.empty() ? "" : " " + unit);
    const bool readable = written.find('e') == std::string::npos || digits > 17;
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

std::string short_text(double value, Dimension dimension)
{
  const Unit *usual = nullptr;
  for (const Unit &unit : units()) {
    const bool first = usual == nullptr && unit.dimension == dimension;
    const bool fits = dimension == Dimension::time && unit.dimension == dimension &&
                      value >= static_cast<double>(unit.factor);
    if (first || fits)
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
