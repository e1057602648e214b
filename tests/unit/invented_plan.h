// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_json.h"
#include "solver/report/plan_report.h"

#include <string>

namespace overbend::tests
{
// A plan whose numbers are invented, none of them round: texts and pages are tested on it without a
// simulation. `kind` is the verdict; `columns` is 1 (known glue) or 3 (slow, middle, fast line),
// each further one clamped 0.2 mm further back. It keeps a reference to the case.
solver::PlanReport invented_report(const cases::Case &the_case, solver::Verdict::Kind kind,
                                   unsigned columns = 1);
// Its plan.json.
std::string invented_plan(const cases::Case &the_case, solver::Verdict::Kind kind,
                          unsigned columns = 1);
} // namespace overbend::tests
