// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/json/plan_json.h"
#include "solver/report/plan_report.h"

#include <string>

namespace overbend::tests
{
// A plan whose numbers are invented, none of them round: texts and pages are tested on it without a
// simulation. `kind` is the verdict; without `simulated` it was refused before any run. It has as
// many passes as the case's phases. A slow line reads 0.15 mm further forward than the middle one,
// a fast one 0.1 mm further back, strung twice that.
solver::PlanReport invented_report(const cases::Case &the_case, solver::Verdict::Kind kind,
                                   bool simulated = true);
// Its plan.json.
std::string invented_plan(const cases::Case &the_case, solver::Verdict::Kind kind,
                          bool simulated = true);
// An electric neck with phases of two passes.
cases::Case two_passes();
} // namespace overbend::tests
