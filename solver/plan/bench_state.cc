// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/bench_state.h"

#include "solver/climate/moisture.h"

#include <algorithm>

namespace overbend::solver
{
BenchState bench_state(const Workbench &workbench, const MechanicsState &state,
                       const std::vector<double> &temperature, const std::vector<double> &moisture)
{
  const Model &model = workbench.model;
  BenchState all;
  all.shape = workbench.lines.shape(state.displacement);
  all.use = wood_use(model, workbench.means, state, temperature, moisture);
  for (unsigned l = 0; l < model.glue_line.size(); ++l) {
    if (std::none_of(model.glue_point.begin(), model.glue_point.end(),
                     [l](const GluePoint &p) { return p.line == l; }))
      continue;
    const std::string &name = model.glue_line[l].name;
    all.line.push_back({name, line_ends(model, state, l)});
    all.use[region_of_line(l)] = line_use(model, all.line.back().ends, l, temperature);
  }
  return all;
}

void BenchRecorder::observe(const StepRecord &step, const MechanicsState &state)
{
  if (step.phase == 0 && step.time <= 0)
    states.clear();
  BenchState now =
      bench_state(workbench_, state, heat_.at(step.time), moisture_at(moisture_, step.time));
  now.time = step.time;
  now.phase = step.phase;
  states.push_back(std::move(now));
}

BenchState BenchRecorder::at_start(const MechanicsState &state) const
{
  return bench_state(workbench_, state, heat_.at(0), moisture_at(moisture_, 0));
}
} // namespace overbend::solver
