// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

namespace overbend::solver
{
// Exit status of the program; how a signal ends it says solver/ending/signals.h.
enum class Exit { good = 0, our_fault = 1, users_mistake = 2, not_converged = 3, files = 4 };

// Does the work. What it throws is told in a sentence on the standard error and decides the status;
// so does a standard output that could not take all of the text.
Exit guarded(const std::function<void()> &work, const std::string &case_file);

// FileError if the text that was printed has not all been taken.
void finish_output();

// Ends the program here: what libraries would still do at its end is left out. Threads of the BLAS
// that could not be started for want of memory are waited for there for ever.
[[noreturn]] void leave(Exit status);
} // namespace overbend::solver
