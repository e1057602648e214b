// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/phases.h"
#include "solver/job/job_planner.h"

#include <algorithm>
#include <cmath>

// A second hot reading instead of a pass that is held back for the fast line.
namespace overbend::solver
{
namespace
{
// What a straightedge and a feeler tell apart on a hot board, m: twice the 0.05 mm of a cold one
// [E].
constexpr double readable = 0.1e-3;
// A fast line that is taken for a middle one ends a millimetre back-bowed: so they must lie further
// apart than one misreading, m [E].
constexpr double surely_apart = 0.2e-3;
// A hold is read in its middle if each half leaves a fast line the time to follow, s [E].
constexpr double shortest_hold = 2 * 3600;
// Place of a line between the middle and the fast one: by half way to fast a line has given way as
// the fast one has, and asks for nearly the same [C] (tests/jobs/second_reading).
constexpr double between_place = 0.3;
// A fast line is let up to end this much forward of the target (shares of a miss): lines that have
// run on as it has, but give less, then end on it too [E].
constexpr double fast_forward = 0.8;
constexpr unsigned most_tries = 3;
} // namespace

bool JobPlanner::may_read_twice() const
{
  const cases::Schedule &schedule = job.planned.schedule;
  const bool asked = job.planned.left_open.second_reread || schedule.second_reread;
  return asked && schedule.reread && schedule.hold >= shortest_hold && !job.planned.phases_listed &&
         !job.planned.first_pass.done() && !job.planned.bench.stop_block;
}

void JobPlanner::read_twice(bool twice)
{
  job.planned.schedule.second_reread = twice;
  job.planned.phases = cases::scheduled_phases(job.planned);
  for (const auto &one : lines)
    if (one)
      one->read_twice(twice);
}

// Nothing where it would not tell the lines apart, or where a line cannot be let up to its target.
std::optional<JobPlanner::Second> JobPlanner::second_reading(const PlanColumn &column,
                                                             const PlanColumn &quick)
{
  if (!may_read_twice())
    return {};
  const bool as_asked = job.planned.schedule.second_reread;
  read_twice(true);
  std::optional<Second> second = let_up_faster_lines(column, quick);
  if (!second)
    read_twice(as_asked);
  return second;
}

std::optional<JobPlanner::Second> JobPlanner::let_up_faster_lines(const PlanColumn &column,
                                                                  const PlanColumn &quick)
{
  Second second;
  second.reading.middle = line(middle).at_bench(line(middle).seen_at_second_reading(column));
  const auto lies_back = [&](const NeckLine &neck, const PlanColumn &own) {
    return second.reading.middle.bow - neck.at_bench(neck.seen_at_second_reading(own)).bow;
  };
  if (lies_back(line(fast), quick) < surely_apart)
    return {};
  const auto of_fast = let_up({line(fast), places[fast], fast_forward * limits.bow_miss}, column,
                              quick, second.quick);
  if (!of_fast)
    return {};
  NeckLine between(job.planned, coarse(), input.tables, choice_at(between_place, true), input.stage,
                   lines[middle].get());
  const PlanColumn left = between.run(column.setting, column.cold_share);
  if (lies_back(between, left) < readable)
    return {};
  PlanColumn then;
  const auto of_between = let_up({between, between_place, 0}, column, left, then);
  if (!of_between)
    return {};
  second.reading.faster = {*of_between, *of_fast};
  if (std::abs(of_between->seen.bow - of_fast->seen.bow) < readable)
    let_up_alike(second, column);
  return second;
}

// Lines that read the same then are let up alike, to the middle between what they ask for. Where
// the one between then ends follows from what letting it up brought; the fast one is run.
void JobPlanner::let_up_alike(Second &second, const PlanColumn &column)
{
  LetUp &between_one = second.reading.faster.front(), &fast_one = second.reading.faster.back();
  const ClampSetting to{(between_one.to.bow + fast_one.to.bow) / 2,
                        (between_one.to.twist + fast_one.to.twist) / 2};
  const double brought = (between_one.strung.bow - between_one.left.bow) /
                         (between_one.to.bow + line(fast).at_bench({}).bow - between_one.seen.bow);
  const double moved = brought * (to.bow - between_one.to.bow);
  for (double Reading::*bow : {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble})
    between_one.strung.*bow += moved;
  second.quick = line(fast).run(column.setting, column.cold_share, to);
  fast_one.strung = second.quick.reached;
  between_one.to = fast_one.to = to;
  // Whichever has run on less marks where the clamp is let up from.
  const double least = std::max(between_one.seen.bow, fast_one.seen.bow);
  between_one.seen.bow = fast_one.seen.bow = least;
}

// To where a line ends on the target that ends at `own` with the middle line's setting. A line that
// has given way is held by where the clamp is last while it is hot: first by the share that it
// keeps, then by the straight line through what was tried.
std::optional<LetUp> JobPlanner::let_up(const Faster &faster, const PlanColumn &of_middle,
                                        const PlanColumn &own, PlanColumn &then) const
{
  LetUp result;
  result.place = faster.place;
  const Reading seen = faster.neck.seen_at_second_reading(own);
  result.seen = faster.neck.at_bench(seen);
  result.left = own.reached;
  const double twist_way = of_middle.setting.twist - of_middle.slack.twist;
  double slope = share_kept(own.reached, of_middle), at = seen.bow, reads = own.reached.bow;
  if (!(slope > limits.least_kept))
    return {};
  Reading aim = job.wanted;
  aim.bow += faster.forward;
  result.to.twist = of_middle.setting.twist;
  if (std::abs(of_middle.sensitivity.twist_by_twist) > limits.least_kept && std::abs(twist_way) > 0)
    result.to.twist += (job.wanted.twist - own.reached.twist) /
                       std::clamp(of_middle.sensitivity.twist_by_twist, 0.2, 1.0);
  for (unsigned tried = 0; tried < most_tries; ++tried) {
    result.to.bow = std::max(of_middle.setting.bow, at + (aim.bow - reads) / slope);
    then = faster.neck.run(of_middle.setting, of_middle.cold_share, result.to);
    result.strung = then.reached;
    if (is_close(then.reached, aim, limits))
      return result;
    if (std::abs(result.to.bow - at) < readable)
      return {};
    slope = std::max(0.2, (then.reached.bow - reads) / (result.to.bow - at));
    at = result.to.bow;
    reads = then.reached.bow;
  }
  return {};
}
} // namespace overbend::solver
