// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace overbend::solver
{
// From now on the signals INT, TERM and HUP end the program tidily at any moment: what is due
// (sudden_end.h) is done, one sentence says what is left, and the status is 128 and the number of
// the signal (130, 143, 129). The same signal once more ends it at once. A signal that is ignored,
// as HUP under nohup, stays ignored. A file that grows too large is an error of writing and no
// signal.
void end_tidily_on_signals();
} // namespace overbend::solver
