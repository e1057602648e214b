// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/moisture.h"

#include <vector>

// The skin's breathing in a phase too long to be followed by the hour.
//
// Air that changes within the day or the week makes the skin of the wood take up and lose water,
// and each swing lets loaded wood creep (materials/wood_law.h). The mean over days hides it. So one
// week in the middle of each quarter of the phase is followed by the hour, from the state that the
// means have come to. What a node goes up and down in it beyond its net change, for each second, is
// added to its travel over that quarter, and its driest is the driest of the week. What this leaves
// out: swings that grow or die down within a quarter; that the skin is stiffer while it is dry, and
// what its own stresses bend. Five weeks with a hot evening each bend a strung neck by 15 % more
// than followed by the hour (tests/verification/hot_evenings_test.cc).
namespace overbend::solver
{
// Adds the states of a phase, followed in means from `start`, with their breathing. Throws
// std::runtime_error as simulate_moisture does.
void add_with_breathing(const Model &model, const cases::Case &the_case, const cases::Phase &phase,
                        const MoistureMoment &start, const std::vector<MoistureMoment> &means,
                        MoistureHistory &history);
} // namespace overbend::solver
