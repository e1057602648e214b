// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/places.h"

#include "cases/text/units.h"
#include "solver/words/shop_words.h"

#include <cmath>

namespace overbend::solver
{
using cases::both_lengths;

std::string from_the_nut(double x)
{
  return both_lengths(std::abs(x)) + (x < 0 ? " beyond the nut" : " from the nut");
}

std::string near_fret(const cases::Case &c, double x)
{
  if (!(x < c.neck.scale_length))
    return "the bridge";
  const double fret = -12 * std::log2(1 - x / c.neck.scale_length);
  if (fret < 0.25)
    return x < -1e-3 ? "beyond the nut" : "the nut";
  if (fret > c.neck.frets + 0.25)
    return "beyond the last fret";
  const double below = std::floor(fret);
  if (fret - below > 0.25 && fret - below < 0.75)
    return below < 1 ? "between the nut and fret 1"
                     : "between frets " + fixed(below, 0) + " and " + fixed(below + 1, 0);
  return "fret " + fixed(std::round(fret), 0);
}

std::string at_fret(const cases::Case &c, double x)
{
  const std::string place = near_fret(c, x);
  return place.rfind("be", 0) == 0 ? place : "at " + place; // between, beyond
}
} // namespace overbend::solver
