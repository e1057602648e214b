// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"
#include "solver/commands/commands.h"
#include "solver/commands/run_watch.h"
#include "solver/job/recorded_plan.h"
#include "solver/report/plan_report.h"
#include "solver/results/record.h"
#include "solver/run/run_output.h"

namespace overbend::solver
{
// One `overbend plan`: from the case to what is written in its folder.
class PlanRun
{
public:
  explicit PlanRun(const CommandOptions &command);
  void run();

private:
  void plan();
  void plan_changed(const cases::Case &opened, const Verdict &asked);
  bool strings_fit();
  void plan_case(const cases::Case &to_plan);
  void finish();
  void write_run(const Workbench &workbench, const RecordedClimates &climates, FieldOutput &fields);
  std::string path(const char *name) const;
  void write(const std::string &exit_reason);
  std::string where_to_look() const;
  const CommandOptions &options;
  const materials::Tables &tables;
  const cases::Case c;
  const std::string folder;
  PlanReport report;
  RunWatch watch;
  Record record;
  mesh::NeckMesh neck;
  SolverCounts counts;
  bool is_recorded = false; // fields of a history were written
};
} // namespace overbend::solver
