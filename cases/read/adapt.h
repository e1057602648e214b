// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"

namespace overbend::cases
{
// A case may choose another kind of headstock, heel or rod than its preset. What the preset says
// about its own kind then means nothing and is dropped, unless the case itself gives it. What the
// case gives against its own kinds stays, for check_case to name.
void drop_what_the_kinds_do_not_have(Case &result);

// Contact, power, overshoot, underside and the place of the iron, where the case leaves them open:
// by what gives the heat and by what the bar lies on.
void settle_heater(Draft &draft);
} // namespace overbend::cases
