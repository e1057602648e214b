// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_stages.h"

#include "solver/report/plan_advice.h"
#include "solver/results/results.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
void read_shape(const PlanReport &report, const PlanColumn &column, const BoardShape &shape,
                const Reading &of_model, PlanStage &stage)
{
  const cases::Case &c = report.the_case;
  const Reading &as_built = column.diagnosis.as_built;
  stage.reading = at_bench(c, of_model, as_built);
  stage.readings = stage_readings(c, shape, of_model, as_built);
  for (int fret = c.found.rest_fret_a; fret <= c.found.rest_fret_b; ++fret)
    stage.twist_by_fret.push_back(twist_at_fret(c, shape, as_built, report.across_by_fret, fret));
}

PlanStage found_stage(const PlanReport &report, std::size_t number)
{
  const ColumnBench &bench = report.bench.at(number);
  PlanStage found;
  found.name = found.phase = as_found;
  found.moment = "end";
  found.state = &bench.found;
  read_shape(report, report.columns[number], bench.found.shape, bench.found_reading, found);
  return found;
}

PlanStage of_phase(const PlanReport &report, std::size_t number, const Stage &which)
{
  const PlanColumn &column = report.columns[number];
  const PhaseEnd &end = column.history.phases.at(which.phase);
  const cases::Phase &phase = report.the_case.phases.at(which.phase);
  PlanStage stage;
  stage.name = which.name;
  stage.phase = phase.name;
  stage.moment = which.at_start ? "start" : "end";
  stage.time = which.at_start ? end.time - phase.duration : end.time;
  stage.strings = phase.strings;
  stage.cords = phase.cords;
  stage.state = report.bench.at(number).state_at(which.phase, which.at_start);
  read_shape(report, column, which.at_start ? end.shape_at_start : end.shape,
             which.at_start ? end.reading_at_start : end.reading, stage);
  return stage;
}
} // namespace

std::vector<PlanStage> plan_stages(const PlanReport &report, std::size_t number)
{
  std::vector<PlanStage> all;
  if (number >= report.columns.size() || number >= report.bench.size())
    return all;
  all.push_back(found_stage(report, number));
  for (const Stage &stage : stages(report.the_case))
    all.push_back(of_phase(report, number, stage));
  return all;
}

std::vector<PlanStage> plan_stages(const PlanReport &report)
{
  return plan_stages(report, report.main_number());
}

const PlanStage *find_stage(const std::vector<PlanStage> &stages, const std::string &name)
{
  const auto stage = std::find_if(stages.begin(), stages.end(),
                                  [&](const PlanStage &s) { return s.name == name; });
  return stage == stages.end() ? nullptr : &*stage;
}
} // namespace overbend::solver
