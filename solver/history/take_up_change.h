// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"

#include <array>
#include <optional>

namespace overbend::solver
{
// By how much each pull (pull_names) is taken up at the start of a phase, m: from just taut where
// it comes on, else from where the phase before left it. Empty for a pull that then hangs slack,
// whatever its length: there is nothing to take up; and for a second one that the device has not.
std::array<std::optional<double>, 2> take_up_change(const cases::Case &the_case,
                                                    const History &history, const PhaseEnd &phase);
} // namespace overbend::solver
