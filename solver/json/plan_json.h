// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"
#include "solver/results/record.h"

#include <string>

namespace overbend::solver
{
// The plan for other programs. Keys end in their unit (_m, _rad, _N, _K, _Pa, _s); keys without
// one are counts, shares or words. `format` names this layout and `format_number` its version. The
// order of keys is fixed, so that equal plans are equal texts but for the record's wall time.
std::string plan_json(const PlanReport &report, const Record &record);
} // namespace overbend::solver
