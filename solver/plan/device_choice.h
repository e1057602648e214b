// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case.h"
#include "materials/tables.h"

#include <vector>

namespace overbend::solver
{
// The benches that a plan tries for what pulls the headstock, in the order in which it tries them:
// that of the case where it fixes the device, else the kindest that reaches, by statics, first.
std::vector<cases::Bench> device_choices(const cases::Case &the_case,
                                         const materials::Tables &tables, double lift);
} // namespace overbend::solver
