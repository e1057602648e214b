// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/job/job.h"

namespace overbend::solver
{
// The accepted plan as one history of all its passes, the middle line, from the neck as found: what
// is written, drawn and read. Heat and moisture are those of Job::planned's phases, on the bench of
// Job::line.
struct RecordedClimates
{
  ThermalHistory heat;
  MoistureHistory moisture;
};
RecordedClimates climates_of(const Job &job);

// Runs it and tells each step. Throws NotConverged.
PlanColumn
record_plan(const Job &job, const materials::Tables &tables, const RecordedClimates &climates,
            const std::function<void(const StepRecord &, const MechanicsState &)> &observe);
} // namespace overbend::solver
