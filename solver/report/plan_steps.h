// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"
#include "solver/words/places.h"

#include <optional>
#include <string>

namespace overbend::solver
{
// The part of the plan's text that goes along the clock: one paragraph a phase, with what is done,
// what the bench then reads and what it reads at the end.
std::string steps_text(const PlanReport &report, const PlanColumn &column);

// How far below the resting headstock the last stop block was put, m; empty without one.
std::optional<double> block_below_rest(const History &history);

// "fret 7, treble edge, in the glue line": where the probe sits.
std::string probe_place_in_words(const cases::Case &the_case);

// "0:25" on the plan's clock; from the release on "1 day 1 h after release".
std::string when(const cases::Case &the_case, double time);
} // namespace overbend::solver
