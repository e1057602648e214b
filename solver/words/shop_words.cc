// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/shop_words.h"

#include "cases/text/units.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <sstream>

namespace overbend::solver
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double thou = 25.4e-6;
} // namespace

std::string fixed(double value, int decimals)
{
  const double scale = std::pow(10., decimals);
  const double clean = std::round(value * scale) == 0 ? 0 : value; // never "-0.00"
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.*f", decimals, clean);
  return text.data();
}

std::string capital(std::string words)
{
  if (!words.empty())
    words.front() = char(std::toupper(static_cast<unsigned char>(words.front())));
  return words;
}

std::string bow_in_words(double metres)
{
  if (std::abs(metres) < 5e-6)
    return "straight";
  return cases::both_lengths(std::abs(metres)) + (metres > 0 ? " forward" : " back-bow");
}

std::string twist_in_words(double radians)
{
  if (std::abs(radians) < 0.005 * degree)
    return "none";
  return cases::degrees(std::abs(radians)) + ", " + (radians > 0 ? "treble" : "bass") +
         " corner of the nut up";
}

double over_sticks(double radians)
{
  return stick_length * std::sin(radians);
}

std::string signed_length(double metres)
{
  const auto with_sign = [](double value, int decimals) {
    const std::string text = fixed(value, decimals);
    const bool zero = text.find_first_not_of("0.") == std::string::npos;
    return text.front() == '-' || zero ? text : "+" + text;
  };
  const double in_thou = metres / thou;
  return with_sign(metres * 1e3, 2) + " mm (" + with_sign(in_thou, std::abs(in_thou) < 10 ? 1 : 0) +
         " thou)";
}

std::string stiffness_in_words(double newtons_per_metre)
{
  constexpr double lbf = 0.45359237 * 9.80665, inch = 25.4e-3;
  return fixed(newtons_per_metre / 1000, 0) + " N/mm (" + fixed(newtons_per_metre * inch / lbf, 0) +
         " lbf/in)";
}

std::string clock_face(double seconds)
{
  const long minutes = std::lround(std::abs(seconds) / 60);
  if (minutes >= 48 * 60)
    return cases::clock(seconds);
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%s%ld:%02ld", seconds < 0 && minutes > 0 ? "-" : "",
                minutes / 60, minutes % 60);
  return text.data();
}

std::string turns(double number)
{
  const long eighths = std::lround(std::abs(number) * 8);
  if (eighths == 0)
    return "none";
  static const std::array<const char *, 8> part = {"",    "1/8", "1/4", "3/8",
                                                   "1/2", "5/8", "3/4", "7/8"};
  const long whole = eighths / 8;
  std::string text;
  if (whole > 0)
    text += std::to_string(whole);
  if (eighths % 8 != 0)
    text += std::string(whole > 0 ? " " : "") + part[std::size_t(eighths % 8)];
  return text;
}

std::string turns_to_make(double number)
{
  const long eighths = std::lround(std::abs(number) * 8);
  if (eighths == 0)
    return "leave it";
  return (number < 0 ? "let out " : "take up ") + turns(number) +
         (eighths > 8 ? " turns" : " turn");
}

std::string folded(const std::string &text, const std::string &first, const std::string &rest,
                   std::size_t width)
{
  std::string out, line = first;
  bool fresh = true;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (!fresh && line.size() + 1 + word.size() > width) {
      out += line + "\n";
      line = rest;
      fresh = true;
    }
    line += (fresh ? "" : " ") + word;
    fresh = false;
  }
  return out + line + "\n";
}

std::string wrapped(const std::string &lines, std::size_t width)
{
  std::string out;
  std::size_t from = 0;
  while (from < lines.size()) {
    const std::size_t end = std::min(lines.find('\n', from), lines.size());
    const std::string line = lines.substr(from, end - from);
    const std::size_t blank = std::min(line.find_first_not_of(' '), line.size());
    const std::string indent(blank, ' ');
    if (line.size() > width)
      out += folded(line, indent, indent, width);
    else
      out += line + (end < lines.size() ? "\n" : "");
    from = end + 1;
  }
  return out;
}
} // namespace overbend::solver
