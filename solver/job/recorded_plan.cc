// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/recorded_plan.h"

#include "solver/plan/work_bounds.h"
#include "solver/readings/fret_surface.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
RecordedClimates climates_of(const Job &job)
{
  const Workbench &bench = job.line->bench();
  RecordedClimates all;
  all.heat = heat_of(bench, job.planned.phases);
  all.moisture = simulate_moisture(bench.model, bench.the_case, job.planned.phases, all.heat,
                                   job.line->water_at_start());
  return all;
}

PlanColumn
record_plan(const Job &job, const materials::Tables &tables, const RecordedClimates &climates,
            const std::function<void(const StepRecord &, const MechanicsState &)> &observe)
{
  const cases::Case &c = job.planned;
  Workbench &bench = job.line->bench();
  const PassPlan &last = job.passes.back();
  PlanColumn column;
  column.diagnosis = job.diagnosis;
  column.first_guess = last.first_guess;
  column.setting = last.overbend;
  column.cold = last.cold;
  column.cold_share = last.cold_share;
  column.sensitivity = last.sensitivity;
  column.limit = last.limit;
  column.limit_place = last.limit_place;
  column.wanted = job.wanted;
  column.peaks = Peaks(bench.model, tables.limits);
  SimulationOptions options;
  options.bow_error = c.numerics.bow_error;
  options.moisture = &climates.moisture;
  options.observe = [&](const StepRecord &step, const MechanicsState &state) {
    watch_peaks(column.peaks, bench, c, step, state, climates.heat.at(step.time),
                climates.moisture.at(step.time));
    observe(step, state);
  };
  column.history =
      simulate({c, bench.model, bench.bench, bench.lines, bench.mechanics}, c.phases,
               bench.planned_strings, climates.heat, job.line->start().progress, options);
  const unsigned date = phase_at_date(c.phases);
  column.reached = at_bench(c, column.history.phases.at(date).reading, job.diagnosis.as_built);
  column.demands = demands(column, c, c.phases, tables);
  column.within_limits = std::none_of(column.demands.begin(), column.demands.end(),
                                      [](const Demand &d) { return d.share >= 1 + 1e-6; });
  column.on_target = std::abs(column.reached.bow - job.wanted.bow) <= c.target.bow_tolerance &&
                     std::abs(column.reached.twist - job.wanted.twist) <= c.target.twist_tolerance;
  column.prediction_error_bow = column.reached.bow - last.strung[1].bow;
  column.prediction_error_twist = column.reached.twist - last.strung[1].twist;
  column.counts = bench.mechanics.counts();
  return column;
}
} // namespace overbend::solver
