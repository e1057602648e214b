// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan_report.h"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
double as_built_bow(const Reading &as_built, unsigned line)
{
  return line == 0 ? as_built.bow_bass : line == 1 ? as_built.bow : as_built.bow_treble;
}

// The line of the board as the bench sees it: heights with the as-built parabola taken off.
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
  return seen;
}

std::vector<ReadingsTable::Column> columns_of(const cases::Case &c)
{
  const std::string where = ", fret " + std::to_string(c.found.bow_fret) + " over frets " +
                            std::to_string(c.found.rest_fret_a) + " and " +
                            std::to_string(c.found.rest_fret_b);
  return {{"bow bass" + where, Quantity::length},
          {"bow centre" + where, Quantity::length},
          {"bow treble" + where, Quantity::length},
          {"twist", Quantity::angle},
          {"take-up bass", Quantity::length},
          {"take-up treble", Quantity::length},
          {"cord bass", Quantity::force},
          {"cord treble", Quantity::force},
          {"cradle", Quantity::force},
          {"stop block", Quantity::force},
          {"rod", Quantity::force},
          {"probe", Quantity::temperature},
          {"bar", Quantity::temperature},
          {"moisture at the probe", Quantity::moisture},
          {"moisture of the skin, back at the probe's x", Quantity::moisture},
          {"moisture of the core, mid-shaft at the probe's x", Quantity::moisture}};
}
} // namespace

Reading at_bench(const Reading &r, const Reading &a)
{
  return {r.bow_bass + a.bow_bass, r.bow + a.bow, r.bow_treble + a.bow_treble, r.twist + a.twist};
}

double bow_at_bench(const cases::Case &c, const BoardShape &shape, const Reading &as_built,
                    unsigned line, int fret)
{
  return bow_at_fret(bench_line(c, shape, as_built, line), fret, c.found.rest_fret_a,
                     c.found.rest_fret_b)
      .bow;
}

Rocking rocking_at_bench(const cases::Case &c, const BoardShape &shape, const Reading &as_built,
                         unsigned line)
{
  const RockingReading r =
      rocking_gaps(bench_line(c, shape, as_built, line), c.found.rest_fret_a, c.found.rest_fret_b);
  return {r.end_gap, r.hump_fret};
}

std::vector<int> reading_frets(const cases::Case &c)
{
  std::set<int> frets = {c.found.bow_fret};
  for (const int fret : {1, 3, 5, 7, 9, 12, 15, 17, 19, 21, 24})
    if (fret > c.found.rest_fret_a && fret < c.found.rest_fret_b)
      frets.insert(fret);
  return {frets.begin(), frets.end()};
}

const StepRecord &step_at_start(const History &history, unsigned phase)
{
  const auto step = std::find_if(history.steps.begin(), history.steps.end(),
                                 [&](const StepRecord &s) { return s.phase == phase; });
  if (step == history.steps.end())
    throw std::logic_error("the history has no steps of phase " + std::to_string(phase));
  return *step;
}

std::vector<double> phase_starts(const cases::Case &c)
{
  std::vector<double> starts;
  double time = 0;
  for (const cases::Phase &phase : c.phases) {
    starts.push_back(time);
    time += phase.duration;
  }
  return starts;
}

double zero_of_clock(const cases::Case &c)
{
  const std::vector<double> starts = phase_starts(c);
  for (std::size_t i = 0; i < c.phases.size(); ++i)
    if (c.phases[i].heater && c.phases[i].cords)
      return starts[i];
  return 0;
}

double time_of_release(const cases::Case &c)
{
  double time = 0;
  bool clamped = false;
  for (const cases::Phase &phase : c.phases) {
    if (clamped && !phase.cords)
      return time;
    clamped = phase.cords;
    time += phase.duration;
  }
  return time;
}

ReadingsTable readings_table(const cases::Case &c, const History &history, const Reading &as_built,
                             const HeatReader &heat)
{
  ReadingsTable table;
  table.columns = columns_of(c);
  const StepRecord *before = nullptr;
  for (const StepRecord &step : history.steps) {
    const bool first = before == nullptr || before->phase != step.phase;
    const bool last = &step == &history.steps.back() || (&step + 1)->phase != step.phase;
    const HeatReading warm = first ? heat.at(step.time) : heat.just_before(step.time);
    const Reading r = at_bench(step.reading, as_built);
    ReadingsTable::Row row;
    row.time = step.time;
    row.phase = c.phases.at(step.phase).name;
    row.moment = first ? "start" : last ? "end" : "during";
    row.values = {r.bow_bass,
                  r.bow,
                  r.bow_treble,
                  r.twist,
                  step.take_up[0],
                  step.take_up[1],
                  step.forces.cord[0],
                  step.forces.cord[1],
                  step.forces.cradle,
                  step.forces.block,
                  step.forces.rod,
                  warm.probe,
                  warm.bar,
                  {},
                  {},
                  {}};
    if (warm.moisture) {
      const std::size_t first_of_three = row.values.size() - 3;
      row.values[first_of_three] = warm.moisture->probe;
      row.values[first_of_three + 1] = warm.moisture->skin;
      row.values[first_of_three + 2] = warm.moisture->core;
    }
    table.rows.push_back(row);
    before = &step;
  }
  return table;
}
} // namespace overbend::solver
