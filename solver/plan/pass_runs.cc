// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/pass_planner.h"

#include "solver/plan/work_bounds.h"
#include "solver/readings/fret_surface.h"

#include <algorithm>
#include <cmath>

// Runs of the pass, and what the planner keeps of them.
namespace overbend::solver
{
namespace
{
// Units are scaled to what a bench would change: they are linear, and this keeps their numbers near
// those of the base.
constexpr double unit_bow = 1e-3, unit_twist = 0.01;

// The step at which the target is read.
const StepRecord &target_step(const std::vector<cases::Phase> &phases, const History &history)
{
  const unsigned last = phase_at_date(phases);
  return *std::find_if(history.steps.rbegin(), history.steps.rend(),
                       [&](const StepRecord &step) { return step.phase <= last; });
}
} // namespace

History PassPlanner::run(const Progress &start, bool final_run)
{
  column.peaks = Peaks(workbench.model, input.tables.limits);
  SimulationOptions options;
  options.bow_error = input.step_coarseness * the_case.numerics.bow_error;
  options.first_step *= input.step_coarseness;
  options.largest_log_shift *= std::min(2., input.step_coarseness);
  options.moisture = input.moisture;
  options.keep_after = input.keep_after;
  options.observe = [&](const StepRecord &step, const MechanicsState &state) {
    watch(step, state);
    if (final_run && input.observe_final)
      input.observe_final(step, state);
  };
  std::vector<cases::Phase> pulled = with_setting(phases, rule, column.setting);
  if (input.second_setting)
    pulled = with_second_setting(std::move(pulled), *input.second_setting);
  return simulate(workbench.neck(), pulled, workbench.planned_strings, heat, start, options);
}

void PassPlanner::watch(const StepRecord &step, const MechanicsState &state)
{
  watch_peaks(column.peaks, workbench, the_case, step, state, heat.at(step.time),
              moisture_at(input.moisture, step.time));
}

Reading PassPlanner::read_at_bench(const Reading &of_model) const
{
  return at_bench(the_case, of_model, found.diagnosis.as_built);
}

void PassPlanner::run_with_units()
{
  input.stage("trial run and small changes");
  Progress start = found.progress;
  start.units.clear();
  for (unsigned k = 0; k < 2; ++k) {
    Unit unit;
    (k == 0 ? unit.bow : unit.twist) = k == 0 ? unit_bow : unit_twist;
    unit.state = unstressed(workbench.model);
    start.units.push_back(unit);
  }
  const History history = run(start, false);
  ++column.unit_runs;
  const StepRecord &last = target_step(phases, history);
  base_setting = column.setting;
  base_reading = read_at_bench(last.reading);
  Sensitivity &s = column.sensitivity;
  s.bow_by_bow = last.unit[0].bow / unit_bow;
  s.twist_by_bow = last.unit[0].twist / unit_bow;
  s.bow_by_twist = last.unit[1].bow / unit_twist;
  s.twist_by_twist = last.unit[1].twist / unit_twist;
  column.history = history;
  note_pulls(history);
  slack_in_units = !pulls_reached;
  column.demands = demands(column, the_case, phases, input.tables);
}

void PassPlanner::run_full()
{
  input.stage("trial runs");
  const Reading expected = predicted();
  cold_share_run = rule.cold_share;
  column.history = run(found.progress, true);
  ++column.full_runs;
  column.reached = read_at_bench(target_step(phases, column.history).reading);
  column.prediction_error_bow = column.reached.bow - expected.bow;
  column.prediction_error_twist = column.reached.twist - expected.twist;
  note_pulls(column.history);
  base_setting = column.setting;
  base_reading = column.reached;
  column.demands = demands(column, the_case, phases, input.tables);
  column.on_target = missed() <= 1;
  const bool bow_is_right = std::abs(column.reached.bow - column.wanted.bow) <=
                            input.coarseness * the_case.target.bow_tolerance;
  if (!pulls_reached && !column.on_target && bow_is_right)
    column.limit = Limit::twist_out_of_reach;
}

// Only the pulls of the overbend: a cold pull that does not reach straight is no matter.
void PassPlanner::note_pulls(const History &history)
{
  pulls_reached = true;
  for (const PhaseEnd &p : history.phases)
    pulls_reached = pulls_reached && (p.pull_reached || !phases[p.phase].pull.decides);
}

// Reading predicted by the units for the setting at hand.
Reading PassPlanner::predicted() const
{
  const Sensitivity &s = column.sensitivity;
  const double bow = column.setting.bow - base_setting.bow,
               twist = column.setting.twist - base_setting.twist;
  Reading r = base_reading;
  r.bow += s.bow_by_bow * bow + s.bow_by_twist * twist;
  r.twist += s.twist_by_bow * bow + s.twist_by_twist * twist;
  return r;
}
} // namespace overbend::solver
