// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::solver
{
// What `overbend COMMAND --help` shows below the options: examples of this command, each with what
// it does. std::logic_error for a command without examples.
std::string examples_of(const std::string &command);

// The same for `overbend --help`: one line a command, and the exit status.
std::string all_examples();
} // namespace overbend::solver
