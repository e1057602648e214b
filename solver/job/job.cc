// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/job.h"

#include "solver/job/job_planner.h"

#include <cmath>

namespace overbend::solver
{
bool is_close(const Reading &reached, const Reading &wanted, const materials::WorkLimits &limits)
{
  return std::abs(reached.bow - wanted.bow) <= limits.bow_miss &&
         std::abs(reached.twist - wanted.twist) <= limits.twist_miss;
}

Job plan_job(const JobInput &input)
{
  return JobPlanner(input).plan();
}
} // namespace overbend::solver
