// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/readings/stage_readings.h"

#include "solver/readings/fret_surface.h"
#include "solver/words/shop_words.h"

namespace overbend::solver
{
namespace
{
double as_built_bow(const Reading &as_built, unsigned line)
{
  return line == 0 ? as_built.bow_bass : line == 1 ? as_built.bow : as_built.bow_treble;
}

LineReadings read_line(const cases::Case &c, const SampledLine &line)
{
  const int a = c.found.rest_fret_a, b = c.found.rest_fret_b;
  LineReadings r;
  r.bow = bow_at_fret(line, c.found.bow_fret, a, b).bow;
  const DeepestReading most = deepest(line, a, b);
  r.deepest_bow = most.bow;
  r.deepest_fret = most.fret;
  for (int fret = a; fret <= b; ++fret)
    r.bow_by_fret.push_back(bow_at_fret(line, fret, a, b).bow);
  r.edge = edge_on_line(line, a, b);
  const EdgeReading held = string_held_down(line, a, b);
  r.relief = held.deepest_gap;
  r.relief_fret = held.deepest_fret;
  return r;
}
} // namespace

EdgeOnLine edge_on_line(const SampledLine &line, int rest_a, int rest_b)
{
  const RockingReading balanced = rocking_gaps(line, rest_a, rest_b);
  const auto x = [&](int fret) { return line.x[std::size_t(fret)]; };
  const double length = x(rest_b) - x(rest_a);
  const EdgeReading resting = straightedge(line, rest_a, length);
  EdgeOnLine edge;
  edge.rest_a = resting.rest_a;
  edge.rest_b = resting.rest_b;
  edge.rocks = balanced.end_gap > least_end_gap &&
               x(resting.rest_b) - x(resting.rest_a) < firm_rest * length;
  if (edge.rocks) {
    edge.hump_fret = balanced.hump_fret;
    edge.end_gap = balanced.end_gap;
    edge.gap = balanced.gap;
  } else {
    edge.deepest_gap = resting.deepest_gap;
    edge.deepest_gap_fret = resting.deepest_fret;
    edge.gap = resting.gap;
  }
  return edge;
}

SampledLine bench_line(const cases::Case &c, const BoardShape &shape, const Reading &as_built,
                       unsigned line)
{
  SampledLine seen = line == 0 ? shape.bass : line == 1 ? shape.centre : shape.treble;
  const auto a = std::size_t(c.found.rest_fret_a), b = std::size_t(c.found.rest_fret_b);
  const auto m = std::size_t(c.found.bow_fret);
  const auto parabola = [&](double x) { return (x - seen.x[a]) * (seen.x[b] - x); };
  const double size = as_built_bow(as_built, line) / parabola(seen.x[m]);
  for (std::size_t i = 0; i < seen.z.size(); ++i)
    seen.z[i] -= size * parabola(seen.x[i]);
  std::vector<double> heights = surface_heights(c, line);
  heights.resize(seen.z.size(), 0.);
  return on_frets(seen, heights);
}

StageReadings stage_readings(const cases::Case &c, const BoardShape &shape, const Reading &of_model,
                             const Reading &as_built)
{
  StageReadings all;
  for (unsigned line = 0; line < 3; ++line)
    all.line[line] = read_line(c, bench_line(c, shape, as_built, line));
  all.twist = at_bench(c, of_model, as_built).twist;
  all.over_sticks = over_sticks(all.twist);
  return all;
}
} // namespace overbend::solver
