// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/verdict/verdict.h"

// Whether the neck has come to rest in the shop's air.
namespace overbend::solver
{
// Mean over the neck's volume of moisture contents, kg/kg, one a node.
double mean_moisture(const Model &model, const std::vector<double> &moisture);

// Conditions a neck first whose wood would be at rest with air far drier or damper than the shop's
// (difference of relative humidity from WorkLimits::condition_humidity on): heat drives its water,
// the neck moves by itself meanwhile, and what was read is not the shape that is to be corrected. A
// case that lists such a wait before its first heat has seen to it. `moisture`: mean_moisture at
// the start of the work; std::domain_error as materials::rest_humidity.
Verdict judge_water(const cases::Case &the_case, double moisture);
} // namespace overbend::solver
