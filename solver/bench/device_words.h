// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"

#include <string>

namespace overbend::solver
{
// How the case's device is rigged, for the hands that do it; one or two sentences: which posts and
// where their cords run, where strap, bar or caul lie, how stiff they are taken to be.
std::string device_in_words(const cases::Case &the_case, const materials::Tables &tables);
} // namespace overbend::solver
