// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// One moment of a column's history that a bench reads: from as found to the date asked. Text
// and JSON of the plan show the same ones.
struct PlanStage
{
  std::string name;   // "as found", "in the clamp, cold", "released", ...
  std::string phase;  // its phase, or "as found"
  std::string moment; // "start" or "end" of the phase
  double time = 0;    // s since the start of the first phase
  bool strings = false, cords = false;
  Reading reading; // as the bench reads it
  StageReadings readings;
  std::vector<double> twist_by_fret; // from rest fret to rest fret, against the one at the body
  const BenchState *state = nullptr; // lives in the report; null where none was kept
};

// Of the main column, or of one by its number. Empty without a column (refused before).
std::vector<PlanStage> plan_stages(const PlanReport &report);
std::vector<PlanStage> plan_stages(const PlanReport &report, std::size_t column);

// The stage of that name, or null.
const PlanStage *find_stage(const std::vector<PlanStage> &stages, const std::string &name);
} // namespace overbend::solver
