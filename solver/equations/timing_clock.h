// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>

namespace overbend::solver
{
// Seconds of a clock that only runs forward.
inline double clock_seconds()
{
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}
} // namespace overbend::solver
