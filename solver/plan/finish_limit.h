// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"

#include <string>

namespace overbend::solver
{
// Where trouble starts and where to stop for a finish, K (finishes.toml); neither is above the
// hottest that any surface of a neck may get (limits.toml).
struct FinishLimit
{
  double trouble, stop;
  std::string name;
};
FinishLimit finish_limit(cases::Finish kind, const materials::Tables &tables);
} // namespace overbend::solver
