// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

// Each pass has a clock of its own, as the bench has it: nobody counts the second pass from the
// first one's heat.
namespace overbend::solver
{
// Times in s since the start of the first phase.
struct PassClock
{
  double start = 0;   // of its first phase
  double zero = 0;    // 0:00: its heat comes on with the cords on; without such heat, its start
  double release = 0; // first phase without cords after one with them; its end if there is none
  double end = 0;     // of its last phase

  double release_on_clock() const { return release - zero; }
  double on_clock(double time) const { return time - zero; }
  double after_release(double time) const { return time - release; }
};

// Of a pass counted from 1; one that the case does not have: std::out_of_range.
PassClock pass_clock(const cases::Case &the_case, int pass);

// How many passes its phases make; 1 without a clamp.
int number_of_passes(const cases::Case &the_case);

// Of the last pass: what is strung up is told from this release on.
PassClock last_clock(const cases::Case &the_case);

// Start of a phase, s.
double start_of(const cases::Case &the_case, unsigned phase);

// "0:25" on the clock of the pass that a phase belongs to; from its release on "1 day 1 h after
// release". Of the start of the phase.
std::string when_it_begins(const cases::Case &the_case, unsigned phase);
} // namespace overbend::solver
