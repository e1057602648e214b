// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <optional>
#include <string>

namespace overbend::solver
{
// The part of the plan's text that goes along the clock: one paragraph a phase, with what is done,
// what the bench then reads and what it reads at the end.
std::string steps_text(const PlanReport &report, const PlanColumn &column);

// How far below the resting headstock the last stop block was put, m; empty without one.
std::optional<double> block_below_rest(const History &history);
} // namespace overbend::solver
