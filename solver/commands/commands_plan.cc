// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/commands.h"

#include "solver/commands/plan_run.h"

namespace overbend::solver
{
void plan_command(const CommandOptions &options)
{
  PlanRun(options).run();
}
} // namespace overbend::solver
