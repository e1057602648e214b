// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/colour_map.h"

#include <vtkLookupTable.h>
#include <vtkSmartPointer.h>

#include <string>
#include <vector>

namespace overbend::viz
{
// growing: more is lighter. diverging: zero in the middle, signs told apart. use: a share of what
// can be borne, growing, with a colour of its own above 100 %.
enum class ScaleKind { growing, diverging, use };

// Another unit of the same amount: value * factor + offset.
struct OtherUnit
{
  std::string name; // empty: none
  double factor = 1, offset = 0;
};

// The colours of amounts from a least to a largest value.
struct ColourScale
{
  ScaleKind kind = ScaleKind::growing;
  double from = 0, to = 1;
  std::string title; // without unit
  std::string unit;
  OtherUnit other;
  std::vector<double> marks = {}; // limits to be marked on the legend

  vtkSmartPointer<vtkLookupTable> table() const;
  Colour colour(double share) const; // of the way from least to largest
};

// Round numbers from a to b, `about` of them.
std::vector<double> round_ticks(double a, double b, int about);

// From 0 to a round number at or above the largest amount.
ColourScale from_zero(double most, const std::string &title, const std::string &unit,
                      const OtherUnit &other = {});
// Zero in the middle. What 997 of 1000 amounts stay below decides: at corners and edges a computed
// stress grows without end, and a scale to there would leave all else without colour.
ColourScale around_zero(std::vector<double> amounts, const std::string &title,
                        const std::string &unit);
// Share of strength in use, 0 to 100 %, with the limits at which the plan warns and refuses.
ColourScale scale_of_use();
// Degrees Celsius between full tens, and Fahrenheit.
ColourScale temperature_scale(double least, double largest);
// Slip of the glue lines, mm and thou.
ColourScale slip_scale(double most);
} // namespace overbend::viz
