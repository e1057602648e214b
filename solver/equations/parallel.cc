// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/parallel.h"

#include <cstdlib>
#include <string>

namespace overbend::solver
{
bool on_one_thread()
{
  static const bool one = [] {
    const char *const asked = std::getenv("OMP_NUM_THREADS");
    return asked != nullptr && std::string(asked) == "1";
  }();
  return one;
}
} // namespace overbend::solver
