// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/view/surface.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

namespace overbend::viz
{
namespace
{
constexpr double same_place = 1e-5;   // m
constexpr double rounded_edge = 3e-3; // m that the edge of a rounded board lies lower

// Nodes of the board's top at one x.
struct Station
{
  double x = 0;
  unsigned bass = 0, centre = 0, treble = 0;
};

std::vector<Station> stations_of(const Surface &skin)
{
  const auto at = [&](unsigned node, std::size_t i) { return skin.nodes[3 * node + i]; };
  double top = -1e300;
  for (unsigned n = 0; n < skin.source.size(); ++n)
    top = std::max(top, at(n, 2));
  std::map<long, Station> by_place;
  for (unsigned n = 0; n < skin.source.size(); ++n) {
    if (at(n, 0) < -same_place || at(n, 2) < top - rounded_edge)
      continue;
    const auto [place, fresh] =
        by_place.emplace(std::lround(at(n, 0) / same_place), Station{at(n, 0), n, n, n});
    Station &s = place->second;
    if (at(n, 1) < at(s.bass, 1))
      s.bass = n;
    if (at(n, 1) > at(s.treble, 1))
      s.treble = n;
    if (std::abs(at(n, 1)) < std::abs(at(s.centre, 1)))
      s.centre = n;
  }
  std::vector<Station> stations;
  for (const auto &[place, station] : by_place)
    stations.push_back(station);
  return stations;
}
} // namespace

std::vector<AcrossTop> across_top(const Surface &skin, const std::vector<double> &places)
{
  const std::vector<Station> stations = stations_of(skin);
  std::vector<AcrossTop> lines;
  for (const double x : places) {
    const auto after =
        std::find_if(stations.begin(), stations.end(), [&](const Station &s) { return s.x >= x; });
    if (after == stations.end() || after == stations.begin())
      continue;
    const Station &b = *after, &a = *std::prev(after);
    const double share = (x - a.x) / (b.x - a.x);
    lines.push_back(
        {{a.bass, b.bass, share}, {a.centre, b.centre, share}, {a.treble, b.treble, share}});
  }
  return lines;
}
} // namespace overbend::viz
