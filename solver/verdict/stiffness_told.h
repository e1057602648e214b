// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/verdict/verdict.h"

#include <optional>

// What the neck read strung, slack and with its rod loaded tells of its stiffness and its rod.
//
// Strings lift a neck by an amount that its stiffness divides: factor = computed lift / read lift.
// The pair of readings that differ in the strings alone is taken first: with the rod slack in both,
// then with the rod as found in both; the last is strung with the rod as found against slack.
namespace overbend::solver
{
// Whether the case holds a strung reading, so that fit_stiffness has something to fit to.
bool tells_stiffness(const cases::Case &the_case);

// Scales with a caution where the factor is further from 1 than WorkLimits::stiffness_doubt;
// refuses what no wood is (stiffness_least, stiffness_most), and a lift too small to be read.
// Cautions where the rod's own part, read apart, does not fit its pull. `factor`: of fit_stiffness,
// empty without a strung reading. A crack or a loaded rod that the case tells is refused before
// (refuse_before).
void judge_stiffness(const cases::Case &the_case, const Lifts &lifts, std::optional<double> factor,
                     Verdict &verdict);
} // namespace overbend::solver
