// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/job_planner.h"

#include <algorithm>

// The second pass, each line for itself.
namespace overbend::solver
{
namespace
{
constexpr unsigned most_passes = 2;
} // namespace

bool JobPlanner::may_go_on() const
{
  return job.passes.size() + (job.first_pass ? 1 : 0) < most_passes && !job.planned.phases_listed &&
         job.passes.back().limit != Limit::twist_out_of_reach;
}

void JobPlanner::one_more_pass()
{
  const PassPlan before = job.passes.back();
  lines[middle]->next_pass();
  // It keeps of a second clamping what it kept of the first.
  const Sensitivity known = before.sensitivity;
  const double more = job.wanted.bow - before.strung[middle].bow;
  const double turn = job.wanted.twist - before.strung[middle].twist;
  const ClampSetting now = lines[middle]->now();
  const ClampSetting guess{now.bow + more / known.bow_by_bow,
                           now.twist + turn / std::max(0.2, known.twist_by_twist)};
  finish_later_pass(line(middle).size({guess, {}, &known}));
}

// A later pass is planned anew from what was read: by then the line's speed is known, and each
// line is clamped for itself, as far as a neck may be. What a slow or fast line then reads
// follows from the share that it kept in the first pass; one that needs nothing more stays as it
// is.
void JobPlanner::finish_later_pass(const PlanColumn &column)
{
  PassPlan pass = job.passes.back();
  pass.second.reset();
  const double furthest = limits.most_overbend(job.planned.neck.scale_length);
  for (const unsigned speed : {slow, fast}) {
    const double missing = job.wanted.bow - pass.strung[speed].bow;
    if (missing > 0)
      continue;
    const double most = kept[speed] * (-furthest - pass.released[speed].bow);
    const double moved = std::max(missing, std::min(0., most));
    for (Reading *one : {&pass.strung[speed], &pass.released[speed]})
      for (double Reading::*what : {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble})
        one->*what += moved;
  }
  read(middle, column, pass);
  write_down(column, pass);
  job.passes.push_back(pass);
  job.ends = is_close(column.reached, job.wanted, limits) && column.within_limits;
}
} // namespace overbend::solver
