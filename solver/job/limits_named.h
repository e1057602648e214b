// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/job/job.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// Each limit that a pass or a set-up tried would pass, and what holds a pass back short of its
// target: each once, with the most that was asked of it.
std::vector<Demand> limits_named(const Job &job);
// A sentence for each, with what was asked (N, m or a share of strength) and what is borne.
std::vector<std::string> limits_in_words(const Job &job);
} // namespace overbend::solver
