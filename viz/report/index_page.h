// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <string>

namespace overbend::viz
{
// index.html of a results folder: the verdict, the bench card first, and what each file that is
// there is. Files it does not know are named without a word.
std::string index_page(const PlanFile &plan);
} // namespace overbend::viz
