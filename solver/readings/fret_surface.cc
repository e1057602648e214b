// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/readings/fret_surface.h"

#include "mesh/neck_profile.h"
#include "solver/readings/bench_readings.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
Reading sum(const Reading &a, const Reading &b, double sign = 1)
{
  return {a.bow_bass + sign * b.bow_bass, a.bow + sign * b.bow, a.bow_treble + sign * b.bow_treble,
          a.twist + sign * b.twist};
}

double across(const cases::Case &c, int fret)
{
  const mesh::NeckProfile profile(c.neck);
  return 2 * mesh::reading_line_share *
         profile.half_width(cases::fret_position(c.neck.scale_length, fret));
}
} // namespace

std::vector<double> fret_heights(const cases::Case &c, unsigned line)
{
  std::vector<double> heights(std::size_t(c.neck.frets) + 1, 0.);
  for (const auto &[fret, height] : c.readings.fret_heights)
    heights.at(std::size_t(fret)) = line == 0   ? height.bass
                                    : line == 2 ? height.treble
                                                : 0.5 * (height.bass + height.treble);
  return heights;
}

std::vector<double> surface_heights(const cases::Case &c, unsigned line)
{
  return c.readings.edge_on == cases::EdgeOn::frets
             ? fret_heights(c, line)
             : std::vector<double>(std::size_t(c.neck.frets) + 1, 0.);
}

double surface_tilt(const cases::Case &c, int fret)
{
  const auto at = c.readings.fret_heights.find(fret);
  if (c.readings.edge_on == cases::EdgeOn::wood || at == c.readings.fret_heights.end())
    return 0;
  return (at->second.treble - at->second.bass) / across(c, fret);
}

Reading of_surface(const cases::Case &c)
{
  if (c.readings.edge_on == cases::EdgeOn::wood || c.readings.fret_heights.empty())
    return {};
  const auto bow = [&](unsigned line) {
    SampledLine tops;
    for (int fret = 0; fret <= c.neck.frets; ++fret)
      tops.x.push_back(cases::fret_position(c.neck.scale_length, fret));
    tops.z = surface_heights(c, line);
    return bow_at_fret(tops, c.found.bow_fret, c.found.rest_fret_a, c.found.rest_fret_b).bow;
  };
  return {bow(0), bow(1), bow(2),
          surface_tilt(c, c.found.rest_fret_a) - surface_tilt(c, c.found.rest_fret_b)};
}

Reading as_found_at_bench(const cases::Case &c)
{
  return {c.found.bow_bass, c.found.bow_centre, c.found.bow_treble,
          c.found.twist.value_or(of_surface(c).twist)};
}

Reading found_wood(const cases::Case &c)
{
  return sum(as_found_at_bench(c), of_surface(c), -1);
}

bool frets_matter(const cases::Case &c)
{
  const Reading r = of_surface(c);
  const double bow = c.target.bow_tolerance;
  return std::abs(r.bow_bass) > bow || std::abs(r.bow) > bow || std::abs(r.bow_treble) > bow ||
         std::abs(r.twist) > c.target.twist_tolerance;
}

std::string edge_in_words(const cases::Case &c)
{
  return c.readings.edge_on == cases::EdgeOn::frets ? "straightedge on the frets"
                                                    : "notched straightedge on the wood";
}

std::string rests_in_words(const cases::Case &c)
{
  const std::string frets = "frets " + std::to_string(c.found.rest_fret_a) + " and " +
                            std::to_string(c.found.rest_fret_b);
  return c.readings.edge_on == cases::EdgeOn::frets ? frets : "the wood at " + frets;
}

Reading at_bench(const cases::Case &c, const Reading &of_model, const Reading &as_built)
{
  return sum(sum(of_model, as_built), of_surface(c));
}
} // namespace overbend::solver
