// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"

// Contradictions between sections. Each throws CaseError with the line of the value that is wrong
// and what to do. Ranges of single values are checked when they are read.
namespace overbend::cases
{
// Sizes, rod, headstock, readings, cradle, heater, probe and target.
void check_case(const Case &result);

// Slots, bows read with and without the rod's load, hot evenings; a part of check_case.
void check_told(const Case &result);

// The default schedule against the target.
void check_schedule(const Case &result);

// The merged phases: what may lie on the bench together, and their order.
void check_phases(const Case &result);
} // namespace overbend::cases
