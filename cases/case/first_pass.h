// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

namespace overbend::cases
{
// The case with the bows and the twist of `found` as they are now: after the first pass where one
// was done. Readings beside them that differ from the bow by strings or rod move with it.
Case as_it_stands(const Case &the_case);
} // namespace overbend::cases
