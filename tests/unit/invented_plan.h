// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan_json.h"

#include <string>

namespace overbend::tests
{
// plan.json of a plan whose numbers are invented, none of them round: pages are tested on it
// without a simulation. `kind` is the verdict; `columns` is 1 (known glue) or 3.
std::string invented_plan(const cases::Case &the_case, solver::Verdict::Kind kind,
                          unsigned columns = 1);
} // namespace overbend::tests
