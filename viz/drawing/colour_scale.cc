// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/colour_scale.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
// %; `wood_use_caution` and `wood_use_refuse` of materials/limits.toml, which a test compares.
const std::vector<double> limits_of_use = {50, 80};
} // namespace

Colour ColourScale::colour(double share) const
{
  return kind == ScaleKind::diverging ? blue_to_brown(2 * share - 1) : cividis(share);
}

vtkSmartPointer<vtkLookupTable> ColourScale::table() const
{
  constexpr int n = 256;
  auto colours = vtkSmartPointer<vtkLookupTable>::New();
  colours->SetNumberOfTableValues(n);
  colours->SetTableRange(from, to);
  for (int i = 0; i < n; ++i) {
    const Colour c = colour(i / (n - 1.));
    colours->SetTableValue(i, c[0], c[1], c[2]);
  }
  if (kind == ScaleKind::use) {
    colours->UseAboveRangeColorOn();
    colours->SetAboveRangeColor(over_the_limit[0], over_the_limit[1], over_the_limit[2], 1);
  }
  return colours;
}

std::vector<double> round_ticks(double a, double b, int about)
{
  const double wanted = (b - a) / about, decade = std::pow(10., std::floor(std::log10(wanted)));
  double step = 10 * decade;
  for (const double times : {1., 2., 2.5, 5.})
    if (times * decade >= wanted * (1 - 1e-9)) {
      step = times * decade;
      break;
    }
  std::vector<double> ticks;
  for (double k = std::ceil(a / step - 1e-9); k * step <= b + 1e-9 * step; ++k)
    ticks.push_back(k == 0 ? 0 : k * step); // no -0
  return ticks;
}

ColourScale from_zero(double most, const std::string &title, const std::string &unit,
                      const OtherUnit &other)
{
  ColourScale scale{ScaleKind::growing, 0, round_up(most), title, unit, other};
  if (scale.to <= 0)
    scale.to = 1; // nothing happened: all in the lowest colour
  return scale;
}

ColourScale around_zero(std::vector<double> amounts, const std::string &title,
                        const std::string &unit)
{
  for (double &a : amounts)
    a = std::abs(a);
  const auto most = amounts.begin() + long(0.997 * double(amounts.size() - 1));
  std::nth_element(amounts.begin(), most, amounts.end());
  const double end = *most > 0 ? round_up(*most) : 1;
  return {ScaleKind::diverging, -end, end, title, unit, {}};
}

ColourScale scale_of_use()
{
  return {ScaleKind::use, 0, 100, "share of the wood's strength in use", "%", {}, limits_of_use};
}

ColourScale temperature_scale(double least, double largest)
{
  ColourScale scale{
      ScaleKind::growing, 10 * std::floor(least / 10), 10 * std::ceil(largest / 10), "temperature",
      "\u00b0C",          {"\u00b0F", 1.8, 32}};
  if (scale.to <= scale.from)
    scale.to = scale.from + 10;
  return scale;
}

ColourScale slip_scale(double most)
{
  return from_zero(most, "slip of the glue lines", "mm", {"thou", 1 / 0.0254, 0});
}
} // namespace overbend::viz
