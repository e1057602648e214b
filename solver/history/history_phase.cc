// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/history_run.h"

#include "solver/history/pull.h"
#include "solver/history/step_control.h"

#include <algorithm>
#include <cmath>

// What changes at once where a phase begins, and what is kept where it ends.
namespace overbend::solver
{
double HistoryRun::warmth(const std::vector<double> &T) const
{
  return bench.rod_temperature(T) - materials::reference_temperature;
}

void HistoryRun::start_phase(unsigned i)
{
  const cases::Phase &phase = phases[i];
  const BenchSetup before = now.setup;
  const std::vector<double> T = heat.at(time);
  bench.change(phase, &strings, now.state.displacement, warmth(T), now.setup, now.offsets);
  for (Unit &unit : now.units)
    bench.put_unit(before, now.setup, unit.state.displacement, unit.offsets);
  const bool reads = phase.pull.kind == cases::Pull::Kind::to_reading;
  const bool new_block = now.setup.block && (reads || !before.block);
  if (!before.cords)
    headstock_rests = bench.headstock_height(now.state.displacement);
  BenchSetup without = now.setup;
  without.block = now.setup.block && !new_block;

  PhaseEnd end;
  end.phase = i;
  mechanics.begin(now.state, climate(time, time), 0);
  std::vector<double> u = now.state.displacement;
  line_ran_on = before.cords && phase.heater;
  end.pull_reached = pull(phase.pull, without, T, u);
  finish_step(u, without);
  if (new_block) {
    bench.place_block(now.state.displacement, now.offsets);
    for (Unit &unit : now.units)
      bench.place_block(unit.state.displacement, unit.offsets);
    end.block_below = headstock_rests - bench.headstock_height(now.state.displacement);
  }
  if (now.setup.rod_is_dead_load && !now.setup.rod_pulls_evenly) {
    bench.rod_becomes_spring(now.state.displacement, warmth(T), now.offsets);
    for (Unit &unit : now.units)
      bench.put_unit(before, now.setup, unit.state.displacement, unit.offsets);
    now.setup.rod_is_dead_load = false;
  }
  record(i);
  end.shape_at_start = lines.shape(now.state.displacement);
  end.reading_at_start = history.steps.back().reading;
  history.phases.push_back(end);
  control.restart(time, controlled(history.steps.back().reading));
  last_change.clear();
}

// Brings the readings where the phase wants them; true if they could be reached.
bool HistoryRun::pull(const cases::Pull &wanted, const BenchSetup &setup,
                      const std::vector<double> &T, std::vector<double> &u)
{
  PullProblem problem{bench,     lines,      mechanics, setup, now.offsets, bench.load(setup),
                      warmth(T), line_ran_on};
  if (wanted.kind == cases::Pull::Kind::take_up) {
    now.offsets.take_up = {wanted.take_up_bass, wanted.take_up_treble};
    for (Unit &unit : now.units)
      unit.offsets.take_up = unit.take_up;
  }
  if (wanted.kind != cases::Pull::Kind::to_reading) {
    mechanics.equilibrate(bench.springs(setup, now.offsets, warmth(T)), bench.load(setup), u);
    return true;
  }
  const PullResult result = pull_to(problem, wanted.bow, wanted.twist, u);
  now.offsets = problem.offsets;
  for (Unit &unit : now.units) {
    const double bow = unit.bow, twist = unit.twist;
    if (!wanted.decides)
      unit.bow = unit.twist = 0;
    pull_unit(problem, result, unit);
    unit.bow = bow;
    unit.twist = twist;
  }
  return result.reached;
}

void HistoryRun::finish_phase(unsigned i)
{
  if (options.keep_after == i)
    history.kept = now;
  PhaseEnd &end = history.phases.back();
  end.time = time;
  end.shape = lines.shape(now.state.displacement);
  end.reading = history.steps.back().reading;
  end.take_up = now.offsets.take_up;
  for (const StepRecord &step : history.steps)
    if (step.phase == i)
      for (unsigned side = 0; side < 2; ++side)
        end.largest_cord[side] = std::max(end.largest_cord[side], std::abs(step.forces.cord[side]));
}
} // namespace overbend::solver
