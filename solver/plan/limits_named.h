// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/job.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// A sentence for each limit that a pass or a set-up tried would pass, and for what holds a pass
// back short of its target, with what was asked (N, m or a share of strength) and what is borne:
// each once, with the most that was asked of it.
std::vector<std::string> limits_in_words(const Job &job);
} // namespace overbend::solver
