// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/plan.h"

#include "solver/plan/pass_planner.h"

#include <stdexcept>

namespace overbend::solver
{
unsigned phase_at_date(const std::vector<cases::Phase> &phases)
{
  if (phases.empty())
    throw std::invalid_argument("a schedule without phases has no date");
  auto last = unsigned(phases.size() - 1);
  while (last > 0 && phases[last].kind == cases::PhaseKind::play)
    --last;
  return last;
}

PlanColumn make_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                     const FoundNeck &found)
{
  PlanColumn column = PassPlanner(input, workbench, heat, found).plan();
  column.counts = workbench.mechanics.counts();
  return column;
}

PlanColumn aim_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                    const FoundNeck &found)
{
  return PassPlanner(input, workbench, heat, found).aimed();
}

PlanColumn try_setting(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                       const FoundNeck &found, double cold_share, bool with_units)
{
  if (!input.first_guess)
    throw std::logic_error("a setting to try is missing");
  PlanColumn column = PassPlanner(input, workbench, heat, found).try_one(cold_share, with_units);
  column.counts = workbench.mechanics.counts();
  return column;
}
} // namespace overbend::solver
