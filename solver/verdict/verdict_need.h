// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/verdict/verdict.h"

#include <string>

// Whether the neck itself needs anything: a bow and a twist that a bench can tell, on the wood and
// not in the frets, and a bow, not a neck angle.
namespace overbend::solver
{
// Refuses a neck that reads right, one whose wood is right and only its frets are not, and one of
// which only the angle is wrong; cautions where frets or angle have a part in what is read.
void judge_need(const cases::Case &the_case, const materials::WorkLimits &limits, Verdict &verdict);

// "0.12 mm (4.7 thou) of the 0.45 mm (18 thou) reading at the centre is frets, not neck", by lines
// where they differ, and the twist; empty where the frets do not matter (fret_surface.h).
std::string frets_in_words(const cases::Case &the_case);
} // namespace overbend::solver
