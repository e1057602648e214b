// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// The pulls of the case's device, in words; as many as can be set apart from each other:
//   posts on both sides "bass cord", "treble cord" ("cords" where a side has several),
//   posts in line       "cord" or "cords": all on one side, one pull,
//   strap               "strap",
//   headstock bar       "bass end of the bar", "treble end of the bar",
//   strap and bar       "strap", "bar": the bar's equal, opposite pair,
//   caul                "caul".
// The only source of these names, for springs, texts and columns alike. Two pulls set bow and
// twist; with one the twist is left as it comes.
std::vector<std::string> pull_names(const cases::Case &the_case);

// Which of the two settings of a clamp the device can bring about.
bool sets_twist(const cases::Case &the_case);
} // namespace overbend::solver
