// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <string>

// What the second hot reading tells, and what it asks for (solver/job/second_reading.h).
namespace overbend::solver
{
// The first pass where it is read twice; null otherwise.
const PassPlan *pass_read_twice(const PlanReport &report);

// "2:50" on the clock of the pass. std::logic_error where nobody reads a second time.
std::string second_reading_time(const PlanReport &report);

// What is done then, in sentences, before the rows.
std::string second_reading_in_words(const PlanReport &report);

// A row for each line, as text of at most 80 columns, each ended: what it reads in the clamp, how
// fast it is, what it is let up to.
std::string second_reading_rows(const PlanReport &report, const std::string &indent);

// What comes of it, in sentences, after the rows.
std::string second_reading_ends(const PlanReport &report);
} // namespace overbend::solver
