// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <optional>
#include <vector>

namespace overbend::cases
{
// What lies on the bench before the first phase: nothing, strings off, air of the shop, a working
// rod slack.
Phase bare_bench(const Case &result);

// The phase that follows `before` if its kind changes only what it must: what is on the bench
// stays. Pulls last for one phase only. `wrap` says whether a heated neck is wrapped.
Phase next_phase(const Phase &before, PhaseKind kind, const Case &result, bool wrap);

// The schedule of the case as a list of phases: clamp to rest once a pass, then strung up.
std::vector<Phase> scheduled_phases(const Case &result, int passes = 1);

// Index of the phase in which the neck is read hot a second time; none where that is not planned.
std::optional<unsigned> second_reading(const std::vector<Phase> &phases);

// Sets Phase::pass and Pull::decides of a list of phases.
void count_passes(std::vector<Phase> &phases);
void mark_deciding_pulls(std::vector<Phase> &phases);

// Gives a phase in a climate the air of its beginning.
void take_first_air(Phase &phase);

// Word of a kind in a case file: "string up".
std::string word(PhaseKind kind);
} // namespace overbend::cases
