// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <functional>
#include <string>

namespace overbend::solver
{
// The plan in shop words: verdict, what is wrong, what to do and by which clock, what to read at
// each stage, what might give, cautions. mm and thou, degC and degF, N, kgf and lbf.
std::string plan_text(const PlanReport &report);

// What of it a terminal shows, in lines of at most 80 characters: verdict, the job in short,
// cautions. Of a refused plan: verdict and what is wrong.
std::string plan_in_short(const PlanReport &report);

// Readings at the start and end of each phase, for `simulate`. `heat`: what probe and bar show at a
// time, s.
std::string history_text(const cases::Case &the_case, const History &history,
                         const Reading &as_built, const std::function<HeatReading(double)> &heat);

// What `check` says of a complete case.
std::string case_in_short(const cases::Case &the_case);
} // namespace overbend::solver
