// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

// Places along the neck as a shop says them.
namespace overbend::solver
{
// "189.8 mm (7.47 in) from the nut", "40.0 mm (1.57 in) beyond the nut".
std::string from_the_nut(double x);

// The place along the neck in words: "fret 6", "between frets 6 and 7", "between the nut and fret
// 1", "the nut", "beyond the nut", "beyond the last fret", "the bridge". at_fret: with "at" where
// it is due.
std::string near_fret(const cases::Case &the_case, double x);
std::string at_fret(const cases::Case &the_case, double x);
} // namespace overbend::solver
