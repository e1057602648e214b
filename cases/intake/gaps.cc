// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/gaps.h"

#include "cases/case/case.h"
#include "cases/text/units.h"

#include <algorithm>
#include <cmath>

namespace overbend::cases
{
namespace
{
constexpr double noise = 0.05e-3; // of a straightedge with feeler gauges [E]

bool has_rests(const Gaps &gaps, Rests rests)
{
  return rests.near_nut < rests.near_body && gaps.count(rests.near_nut) > 0 &&
         gaps.count(rests.near_body) > 0;
}

std::vector<BowAt> between(const std::vector<BowAt> &bows, Rests rests)
{
  std::vector<BowAt> inner;
  for (const BowAt &bow : bows)
    if (bow.fret > rests.near_nut && bow.fret < rests.near_body)
      inner.push_back(bow);
  return inner;
}

// A hump turns the line towards the strings at one place; a bow spreads the turning. Told from
// three readings between the rests: one must rise over the line through its neighbours and hold
// more than this share of all such turning [E].
constexpr double one_place = 0.6;

std::string hump_in_words(const std::vector<BowAt> &bows, double scale_length)
{
  double all = 0, most = 0, rise = 0;
  int fret = 0;
  for (std::size_t i = 1; i + 1 < bows.size(); ++i) {
    const double x0 = fret_position(scale_length, bows[i - 1].fret);
    const double x1 = fret_position(scale_length, bows[i].fret);
    const double x2 = fret_position(scale_length, bows[i + 1].fret);
    const double turning =
        (bows[i + 1].bow - bows[i].bow) / (x2 - x1) - (bows[i].bow - bows[i - 1].bow) / (x1 - x0);
    if (turning <= 0)
      continue;
    all += turning;
    if (turning > most) {
      most = turning;
      fret = bows[i].fret;
      rise = turning * (x1 - x0) * (x2 - x1) / (x2 - x0);
    }
  }
  constexpr std::size_t least = 5; // three between two rests
  if (bows.size() < least || rise <= noise || most < one_place * all)
    return "";
  return "; hump at fret " + std::to_string(fret) + ": it stands " + both_lengths(rise) +
         " over its neighbours";
}
} // namespace

std::optional<double> bow_from_gaps(const Gaps &gaps, double scale_length, Rests rests, int fret)
{
  const auto here = gaps.find(fret);
  if (!(scale_length > 0) || !has_rests(gaps, rests) || here == gaps.end())
    return std::nullopt;
  const double a = fret_position(scale_length, rests.near_nut);
  const double b = fret_position(scale_length, rests.near_body);
  const double share = (fret_position(scale_length, fret) - a) / (b - a);
  const double at_a = gaps.at(rests.near_nut), at_b = gaps.at(rests.near_body);
  return here->second - (at_a + (at_b - at_a) * share);
}

std::vector<BowAt> bows_from_gaps(const Gaps &gaps, double scale_length, Rests rests)
{
  std::vector<BowAt> bows;
  for (const auto &[fret, gap] : gaps)
    if (const auto bow = bow_from_gaps(gaps, scale_length, rests, fret))
      bows.push_back({fret, *bow});
  return bows;
}

int deepest_fret(const Gaps &gaps, double scale_length, Rests rests)
{
  BowAt deepest;
  for (const BowAt &bow : between(bows_from_gaps(gaps, scale_length, rests), rests))
    if (deepest.fret == 0 || std::abs(bow.bow) > std::abs(deepest.bow))
      deepest = bow;
  return deepest.fret;
}

std::string shape_in_words(const Gaps &gaps, double scale_length, Rests rests)
{
  if (!has_rests(gaps, rests))
    return "the gaps at the rest frets " + std::to_string(rests.near_nut) + " and " +
           std::to_string(rests.near_body) +
           " are still to be read (0 where the edge touches): no bow without them";
  std::vector<BowAt> inner = between(bows_from_gaps(gaps, scale_length, rests), rests);
  if (inner.empty())
    return "no fret between the rest frets has been read yet";
  const auto by_bow = [](const BowAt &a, const BowAt &b) { return a.bow < b.bow; };
  const auto [low, high] = std::minmax_element(inner.begin(), inner.end(), by_bow);
  const auto at = [](const BowAt &bow) {
    return both_lengths(std::abs(bow.bow)) + ", most at fret " + std::to_string(bow.fret);
  };
  std::string words = "straight within " + both_lengths(noise);
  if (high->bow > noise && low->bow < -noise)
    words = "S-shaped: forward " + at(*high) + "; back " + at(*low);
  else if (high->bow > noise)
    words = "forward bow of " + at(*high);
  else if (low->bow < -noise)
    words = "back-bow of " + at(*low);
  inner.insert(inner.begin(), {rests.near_nut, 0});
  inner.push_back({rests.near_body, 0});
  return words + hump_in_words(inner, scale_length);
}
} // namespace overbend::cases
