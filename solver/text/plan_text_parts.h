// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <sstream>
#include <string>
#include <vector>

// Parts of the plan's text (plan_text.h), one source file each.
namespace overbend::solver::text
{
// Folded, indented by two.
void paragraph(std::ostringstream &out, const std::string &words);
void list(std::ostringstream &out, const std::vector<std::string> &items);
// Filled with blanks up to the width, one at least.
std::string padded(const std::string &words, std::size_t width);

// What is wrong with it: readings, diagnosis, what the strings lift.
void found(std::ostringstream &out, const cases::Case &the_case);
void diagnosis(std::ostringstream &out, const PlanReport &report);
// A first pass that was done, and how fast the line is that reads what was read.
void first_pass(std::ostringstream &out, const PlanReport &report);
void strings(std::ostringstream &out, const PlanReport &report);

// The plan in a few lines, with what slow and fast lines make of it.
void in_short(std::ostringstream &out, const PlanReport &report);

// What a bench reads fret by fret on three lines, then straightedge, string held down (where there
// are strings) and sticks. `mark` says what the > at the fret of
// the readings means; empty: no fret is marked.
std::string fret_table(const cases::Case &the_case, const StageReadings &readings,
                       const std::string &mark, bool strings);

// Straightedge, sticks, string held down, glue lines and strength at each stage, in small tables.
void stage_tables(std::ostringstream &out, const PlanReport &report);

// What it would read if the clamp were set to something else.
void what_if(std::ostringstream &out, const PlanReport &report);

// Bow and twist over the months of play.
void months_of_play(std::ostringstream &out, const PlanReport &report);

// Of a refused plan: which set-ups and passes were tried and where they ended. No orders.
void tried(std::ostringstream &out, const PlanReport &report);

// What might give: the most of each over the whole history.
void limits(std::ostringstream &out, const PlanReport &report);
} // namespace overbend::solver::text
