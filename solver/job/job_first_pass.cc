// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/job_planner.h"

#include "cases/case/first_pass.h"
#include "solver/job/device_choice.h"

#include <algorithm>
#include <cmath>

// The first pass: which device, how far, held back where a fast line would end too far back.
namespace overbend::solver
{
namespace
{
constexpr unsigned most_devices = 3;
// A fast line that ends less than this too far back (m) is where it may end.
constexpr double least_hold_back = 0.01e-3;
// Settings closer than this are one to a fast line (m, rad).
constexpr double same_bow = 0.03e-3, same_twist = 0.1 * 3.14159265358979323846 / 180;
} // namespace

std::vector<cases::Bench> JobPlanner::possible_devices() const
{
  return device_choices(job.planned, input.tables,
                        needs_of(cases::as_it_stands(job.planned), input.tables, input.lift,
                                 input.tension, job.heat.kept));
}

// The first device that brings the middle line to its target; else the one that comes nearest.
// False when the wood gives by its drying, however little is pulled, and foil may mend that.
bool JobPlanner::first_pass()
{
  std::optional<PlanColumn> best, best_quick;
  std::array<std::unique_ptr<NeckLine>, 3> best_lines;
  for (const cases::Bench &bench : possible_devices()) {
    if (job.tried.size() == most_devices)
      break;
    // What gave at the headstock gives again with whatever pulls on it.
    if (best && headstock_gave(*best) && !spares_headstock(bench.device))
      continue;
    job.planned.bench = bench;
    lines = {};
    quick_as_aimed.reset();
    lines[middle] = make_line(coarse(), middle);
    PlanColumn column = size_first_pass();
    job.tried.push_back({bench, column.reached, column.on_target, column.limit, column.limit_place,
                         column.demands});
    if (!column.within_limits && column.limit == Limit::strength && may_lay_foil())
      return false;
    if (best && !(miss(column) < miss(*best)))
      continue;
    best = std::move(column);
    best_lines = std::move(lines);
    best_quick = std::move(quick_as_aimed);
    best_bench = bench;
    const bool held_back = best->limit == Limit::fast_line && best->within_limits;
    if (best->on_target || held_back || !best->line_moves())
      break;
  }
  job.planned.bench = best_bench;
  lines = std::move(best_lines);
  quick_as_aimed = std::move(best_quick);
  job.line_moves = best->line_moves();
  job.diagnosis = best->diagnosis;
  finish_pass(*best);
  return true;
}

// The fast line with the setting of the middle one: as it was run for the aim, where that is the
// setting.
PlanColumn JobPlanner::quick_of(const PlanColumn &column)
{
  if (quick_as_aimed && column.cold_share == quick_as_aimed->cold_share &&
      std::abs(column.setting.bow - quick_as_aimed->setting.bow) < same_bow &&
      std::abs(column.setting.twist - quick_as_aimed->setting.twist) < same_twist && lines[fast])
    return *quick_as_aimed;
  return run(fast, column);
}

// Of the middle line, held back from the start by what the fast one makes of the setting that the
// unit histories ask for.
PlanColumn JobPlanner::size_first_pass()
{
  const PlanColumn aimed = line(middle).aim_by_units();
  if (!aimed.line_moves())
    return line(middle).size({aimed.setting, {}, &aimed.sensitivity});
  quick_as_aimed = run(fast, aimed);
  const PlanColumn &quick = *quick_as_aimed;
  if (ends_too_far_back(quick) && !may_read_twice())
    return hold_back(aimed, furthest_for(quick, aimed));
  return line(middle).size({aimed.setting, {}, &aimed.sensitivity});
}

// Bow of the clamp (m, as the model reads) at which the fast line ends as far back as it may.
double JobPlanner::furthest_for(const PlanColumn &quick, const PlanColumn &of_middle) const
{
  const double back = least_of_fast_line(job.planned, limits) - quick.reached.bow;
  return of_middle.setting.bow + back / share_kept(quick.reached, of_middle);
}

bool JobPlanner::headstock_gave(const PlanColumn &column)
{
  return column.limit == Limit::strength &&
         (column.limit_place == Region::headstock_root ||
          column.limit_place == Region::scarf_bond || column.limit_place == Region::headstock);
}

double JobPlanner::miss(const PlanColumn &column) const
{
  return std::abs(column.reached.bow - job.wanted.bow) / limits.bow_miss +
         std::abs(column.reached.twist - job.wanted.twist) / limits.twist_miss +
         (column.within_limits ? 0 : 100);
}

// Sees to it that a fast line does not end too far back, and reads all three lines.
void JobPlanner::finish_pass(PlanColumn column)
{
  PassPlan pass;
  // Where the middle line does not move, the others are not run.
  pass.strung.fill(column.reached);
  pass.released.fill(line(middle).released(column));
  if (job.line_moves) {
    PlanColumn quick = quick_of(column);
    std::optional<Second> second;
    if (ends_too_far_back(quick))
      second = second_reading(column, quick);
    if (ends_too_far_back(quick) && !second) {
      column = hold_back(column, furthest_for(quick, column));
      quick = run(fast, column);
    }
    const PlanColumn still = run(slow, column);
    kept[fast] = share_kept(quick.reached, column);
    kept[slow] = share_kept(still.reached, column);
    read(fast, second ? second->quick : quick, pass);
    read(slow, still, pass);
    if (second) {
      second->reading.slow = line(slow).at_bench(line(slow).seen_at_second_reading(still));
      pass.second = std::move(second->reading);
    }
    job.ends = is_close(column.reached, job.wanted, limits) && column.within_limits;
  }
  read(middle, column, pass);
  write_down(column, pass);
  job.passes.push_back(pass);
}

// Share of the clamped way that a line keeps which reads `strung` with the middle line's setting:
// by the straight line from where the clamp does nothing, which all lines share.
double JobPlanner::share_kept(const Reading &strung, const PlanColumn &of_middle)
{
  const double way = of_middle.setting.bow - of_middle.slack.bow;
  const double unclamped = of_middle.reached.bow - of_middle.sensitivity.bow_by_bow * way;
  return (strung.bow - unclamped) / way;
}

bool JobPlanner::ends_too_far_back(const PlanColumn &quick) const
{
  return quick.reached.bow < least_of_fast_line(job.planned, limits) - least_hold_back;
}

// The middle line once more, no further back than `furthest`.
PlanColumn JobPlanner::hold_back(const PlanColumn &column, double furthest)
{
  NeckLine &neck = line(middle);
  const Sensitivity known = column.sensitivity;
  const double full = column.setting.bow - column.slack.bow;
  const double share = std::clamp((furthest - column.slack.bow) / full, 0., 1.);
  const ClampSetting held{column.slack.bow + share * full,
                          column.slack.twist + share * (column.setting.twist - column.slack.twist)};
  return neck.size({held, held.bow, &known});
}
} // namespace overbend::solver
