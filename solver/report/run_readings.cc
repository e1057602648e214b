// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/run_readings.h"

#include "solver/readings/fret_surface.h"
#include "solver/report/plan_report.h"
#include "solver/words/pull_names.h"

#include <cmath>
#include <set>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using Values = std::vector<std::optional<double>>;
using Columns = std::vector<ReadingsTable::Column>;

std::string rests(const cases::Case &c)
{
  return rests_in_words(c);
}

// Names and values side by side, so that none goes without the other.
class RowWriter
{
public:
  explicit RowWriter(Columns *columns) : columns_(columns) {}
  void add(const std::string &name, Quantity quantity, std::optional<double> value)
  {
    if (columns_)
      columns_->push_back({name, quantity});
    values.push_back(value);
  }
  Values values;

private:
  Columns *columns_; // null: only values
};

void add_lines(const cases::Case &c, const StageReadings &r, RowWriter &row)
{
  const auto each = [&](const std::string &before, const std::string &after, Quantity quantity,
                        const auto &value) {
    for (unsigned k = 0; k < 3; ++k)
      row.add(before + line_names[k] + after, quantity, value(r.line[k]));
  };
  using Line = LineReadings;
  const auto if_so = [](bool so, double value) {
    return so ? std::optional<double>(value) : std::nullopt;
  };
  each("bow ", ", fret " + std::to_string(c.found.bow_fret) + " over " + rests(c), Quantity::length,
       [](const Line &l) { return l.bow; });
  row.add("twist between " + rests(c), Quantity::angle, r.twist);
  row.add("twist at the tips of 300 mm winding sticks", Quantity::length, r.over_sticks);
  each("deepest bow ", ", over " + rests(c), Quantity::length,
       [](const Line &l) { return l.deepest_bow; });
  each("deepest bow ", ", at", Quantity::fret, [](const Line &l) { return l.deepest_fret; });
  each("straightedge resting, gap ", ", " + rests(c), Quantity::length,
       [&](const Line &l) { return if_so(!l.edge.rocks, l.edge.deepest_gap); });
  each("straightedge resting, gap ", ", at", Quantity::fret,
       [&](const Line &l) { return if_so(!l.edge.rocks, l.edge.deepest_gap_fret); });
  each("straightedge rocking, end gap ", ", " + rests(c), Quantity::length,
       [&](const Line &l) { return if_so(l.edge.rocks, l.edge.end_gap); });
  each("straightedge rocking, hump ", ", at", Quantity::fret,
       [&](const Line &l) { return if_so(l.edge.rocks, l.edge.hump_fret); });
  for (const unsigned k : {0u, 2u})
    row.add("relief " + std::string(line_names[k]) + ", string held down at " + rests(c),
            Quantity::length, r.line[k].relief);
  for (const unsigned k : {0u, 2u})
    row.add("relief " + std::string(line_names[k]) + ", at", Quantity::fret, r.line[k].relief_fret);
}

void add_forces(const cases::Case &c, const StepRecord &step, RowWriter &row)
{
  const auto pulls = pull_names(c);
  for (std::size_t k = 0; k < pulls.size(); ++k)
    row.add("take-up " + pulls[k], Quantity::length, step.take_up[k]);
  for (std::size_t k = 0; k < pulls.size(); ++k)
    row.add("pull of the " + pulls[k], Quantity::force, step.forces.cord[k]);
  row.add("cradle", Quantity::force, step.forces.cradle);
  row.add("stop block", Quantity::force, step.forces.block);
  row.add("rod", Quantity::force, step.forces.rod);
}

void add_state(const BenchState &state, const std::set<Region> &regions, RowWriter &row)
{
  for (const auto &[name, ends] : state.line) {
    const std::string line = name + " glue line, ";
    row.add("slip of " + line + "nut end", Quantity::length, ends.slip_nut_end);
    row.add("slip of " + line + "body end", Quantity::length, ends.slip_body_end);
    row.add("shear of " + line + "10 mm at the nut end", Quantity::stress, ends.shear_nut_end);
    row.add("shear of " + line + "10 mm at the body end", Quantity::stress, ends.shear_body_end);
    row.add("largest shear of " + line + "10 mm", Quantity::stress, ends.shear);
  }
  for (const Region region : regions) {
    const auto use = state.use.find(region);
    row.add(std::string("share of strength used, ") + name(region), Quantity::share,
            use == state.use.end() ? 0. : use->second.value);
  }
}

void add_heat(const HeatReading &warm, RowWriter &row)
{
  row.add("probe", Quantity::temperature, warm.probe);
  row.add("bar", Quantity::temperature, warm.bar);
  const auto moisture = [&](double MoistureReading::*what) {
    return warm.moisture ? std::optional<double>((*warm.moisture).*what) : std::nullopt;
  };
  row.add("moisture at the probe", Quantity::moisture, moisture(&MoistureReading::probe));
  row.add("moisture of the skin, back at the probe's x", Quantity::moisture,
          moisture(&MoistureReading::skin));
  row.add("moisture of the core, mid-shaft at the probe's x", Quantity::moisture,
          moisture(&MoistureReading::core));
}

void add_fret(const cases::Case &c, const StageReadings &r, double twist, int fret, RowWriter &row)
{
  const auto i = std::size_t(fret - c.found.rest_fret_a);
  row.add("fret", Quantity::fret, fret);
  row.add("from the nut", Quantity::distance, cases::fret_position(c.neck.scale_length, fret));
  for (unsigned k = 0; k < 3; ++k)
    row.add(std::string("bow ") + line_names[k] + ", over " + rests(c), Quantity::length,
            r.line[k].bow_by_fret.at(i));
  for (unsigned k = 0; k < 3; ++k)
    row.add(std::string("gap under the straightedge ") + line_names[k], Quantity::length,
            r.line[k].edge.gap.at(i));
  row.add("twist against fret " + std::to_string(c.found.rest_fret_b), Quantity::angle, twist);
}
} // namespace

std::vector<HeatReading> heat_at_steps(const History &history, const HeatReader &heat)
{
  std::vector<HeatReading> all;
  for (std::size_t s = 0; s < history.steps.size(); ++s) {
    const StepRecord &step = history.steps[s];
    const bool first = s == 0 || history.steps[s - 1].phase != step.phase;
    all.push_back(first ? heat.at(step.time) : heat.just_before(step.time));
  }
  return all;
}

ReadingsTable readings_table(const cases::Case &c, const History &history,
                             const std::vector<BenchState> &states, const Reading &as_built,
                             const std::vector<HeatReading> &heat)
{
  const std::size_t n = history.steps.size();
  if (states.size() != n || heat.size() != n)
    throw std::logic_error("readings need one state and one reading of heat a step");
  std::set<Region> regions;
  for (const BenchState &state : states)
    for (const auto &[region, use] : state.use)
      regions.insert(region);
  ReadingsTable table;
  for (std::size_t s = 0; s < n; ++s) {
    const StepRecord &step = history.steps[s];
    const bool first = s == 0 || history.steps[s - 1].phase != step.phase;
    const bool last = s + 1 == n || history.steps[s + 1].phase != step.phase;
    RowWriter values(s == 0 ? &table.columns : nullptr);
    add_lines(c, stage_readings(c, states[s].shape, step.reading, as_built), values);
    add_forces(c, step, values);
    add_state(states[s], regions, values);
    add_heat(heat[s], values);
    table.rows.push_back({step.time, c.phases.at(step.phase).name,
                          first  ? "start"
                          : last ? "end"
                                 : "during",
                          std::move(values.values)});
  }
  return table;
}

ReadingsTable gaps_table(const cases::Case &c, const History &history, const Reading &as_built,
                         const std::vector<double> &across)
{
  ReadingsTable table;
  for (const PhaseEnd &end : history.phases)
    for (const bool at_start : {true, false}) {
      const BoardShape &shape = at_start ? end.shape_at_start : end.shape;
      const StageReadings r =
          stage_readings(c, shape, at_start ? end.reading_at_start : end.reading, as_built);
      const cases::Phase &phase = c.phases.at(end.phase);
      for (int fret = c.found.rest_fret_a; fret <= c.found.rest_fret_b; ++fret) {
        RowWriter values(table.columns.empty() ? &table.columns : nullptr);
        add_fret(c, r, twist_at_fret(c, shape, as_built, across, fret), fret, values);
        table.rows.push_back({at_start ? end.time - phase.duration : end.time, phase.name,
                              at_start ? "start" : "end", std::move(values.values)});
      }
    }
  return table;
}

double twist_at_fret(const cases::Case &c, const BoardShape &s, const Reading &as_built,
                     const std::vector<double> &across, int fret)
{
  const auto a = std::size_t(c.found.rest_fret_a), b = std::size_t(c.found.rest_fret_b),
             f = std::size_t(fret);
  const auto angle = [&](std::size_t at) {
    return std::atan2(s.treble.z[at] - s.bass.z[at], across.at(at));
  };
  const double share = (s.centre.x[b] - s.centre.x[f]) / (s.centre.x[b] - s.centre.x[a]);
  return angle(f) - angle(b) + share * as_built.twist + surface_tilt(c, fret) -
         surface_tilt(c, c.found.rest_fret_b);
}
} // namespace overbend::solver
