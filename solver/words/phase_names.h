// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::solver
{
// "hold, pass 2" is called "hold" under the heading of its pass; a name without that ending stays.
std::string without_pass(const std::string &name, int pass);
} // namespace overbend::solver
