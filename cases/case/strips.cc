// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/strips.h"

namespace overbend::cases
{
double total_width(const std::vector<Lamination> &strips)
{
  double sum = 0;
  for (const Lamination &strip : strips)
    sum += strip.width;
  return sum;
}
std::vector<double> lines_between(const std::vector<Lamination> &strips)
{
  std::vector<double> lines;
  double y = -total_width(strips) / 2;
  for (std::size_t i = 0; i + 1 < strips.size(); ++i)
    lines.push_back(y += strips[i].width);
  return lines;
}

std::string shaft_in_words(const NeckShape &neck)
{
  if (neck.laminations.empty())
    return neck.shaft.wood;
  std::string text = std::to_string(neck.laminations.size()) + " strips:";
  for (const Lamination &strip : neck.laminations)
    text += (&strip == &neck.laminations.front() ? " " : ", ") + strip.piece.wood;
  return text;
}
} // namespace overbend::cases
