// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <nlohmann/json.hpp>

#include <array>
#include <string>

// Parts of the plan's JSON (plan_json.h) that more than one source file writes.
namespace overbend::solver
{
using Json = nlohmann::ordered_json;

Json json_of(const Reading &reading);
// Stable word of a limit: "cord pull".
const char *limit_word(Limit limit);
Json bass_and_treble(const std::array<double, 2> &values);

// One phase of a column, and a column with all of them.
Json phase(const PlanReport &report, const PlanColumn &column, const PhaseEnd &end);
Json column(const PlanReport &report, const PlanColumn &column);

// What the bench found and on what it was read, with what frets and neck angle make of it.
Json found_json(const cases::Case &the_case);

// Set-up, passes and what slow, middle and fast lines make of them; nothing where it was refused
// before.
void add_job(const PlanReport &report, Json &plan);
// What it would read if the clamp were set to something else (what_if.h).
void add_what_if(const PlanReport &report, Json &plan);
// The clock of each pass, and what the line has when the probe shows its figure.
void add_clocks(const PlanReport &report, Json &plan);

// What a bench card and a report show beside the columns: instrument, side view, set-up, stops,
// expected readings, stages, curves over time. Added to the plan's object.
void add_bench(const PlanReport &report, Json &plan);
void add_stages(const PlanReport &report, Json &plan);
void add_curves(const PlanReport &report, Json &plan);
} // namespace overbend::solver
