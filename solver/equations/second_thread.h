// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

namespace overbend::solver
{
// Whether OMP_NUM_THREADS asks for one thread: for many runs side by side. Results do not depend on
// it.
bool on_one_thread();

// Runs both at once, `there` on a second thread that is kept from call to call, and returns when
// both are done. With one thread, or while the second thread is
// at work already (a call from another thread, or from within `there`), runs one after the other:
// only for work whose result does not hang on the order. Throws what either of them throws, that of
// `here` first.
void at_once(const std::function<void()> &here, const std::function<void()> &there);
} // namespace overbend::solver
