// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

namespace overbend::cases
{
// What the file leaves open of the set-up: what it does not say. Nothing where it lists its phases.
LeftOpen left_open(const Case &result);

// Whether the file fixes anything of what a plan would choose.
bool fixes_set_up(const Case &result);

// The case with all of it left to the plan; a case that lists its phases stays as it is.
Case with_set_up_open(const Case &result);
} // namespace overbend::cases
