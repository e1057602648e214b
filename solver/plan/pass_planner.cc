// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/pass_planner.h"

#include "solver/plan/first_guess.h"
#include "solver/plan/work_bounds.h"

#include <algorithm>
#include <cmath>

// The order of guess, runs and aims.
namespace overbend::solver
{
namespace
{
constexpr unsigned most_full_runs = 4;
// Share of slip below which the first guess does not go: a line that does not move has no answer.
constexpr double least_share = 0.2;

// Limits that are met by going less far.
bool is_bound(Limit limit)
{
  return limit == Limit::cord_pull || limit == Limit::tuner_pull || limit == Limit::strength ||
         limit == Limit::overbend || limit == Limit::fast_line;
}
} // namespace

PassPlanner::PassPlanner(const PlanInput &input_, Workbench &bench_, const ThermalHistory &heat_,
                         const FoundNeck &found_)
    : input(input_), the_case(input_.the_case),
      phases(input_.phases ? *input_.phases : input_.the_case.phases), workbench(bench_),
      heat(heat_), found(found_)
{
  column.diagnosis = found.diagnosis;
  column.wanted.bow = the_case.target.relief;
  column.wanted.twist = the_case.target.twist;
  const Reading now = read(workbench.lines, found.progress.state.displacement);
  const Reading added = read_at_bench({});
  rule.found = column.slack = {now.bow, now.twist};
  rule.straight = {-added.bow, -added.twist};
}

PlanColumn PassPlanner::plan()
{
  guess();
  begin();
  for (bool renewed = false;;) {
    run_full();
    if (meets_all())
      break;
    const bool bound = is_bound(column.limit);
    if (column.full_runs == most_full_runs || (column.limit != Limit::none && !bound))
      break;
    // Contact or slack changed if the units now miss by much: renew them once, before any limit
    // is judged by what they aimed at.
    if (!renewed && (slack_in_units ? pulls_reached : !bound && missed() > 5)) {
      run_with_units();
      renewed = true;
    }
    column.limit = Limit::none;
    aim();
    if (bound && column.within_limits && is_bound(column.limit) && has_settled())
      break;
  }
  column.setting = base_setting;
  column.cold = cold_setting(rule, base_setting);
  column.cold_share = rule.cold_share;
  return std::move(column);
}

PlanColumn PassPlanner::aimed()
{
  guess();
  begin();
  column.reached = predicted();
  return std::move(column);
}

PlanColumn PassPlanner::try_one(double cold_share, bool with_units)
{
  column.setting = column.first_guess = input.first_guess.value();
  rule.cold_share = cold_share_run = cold_share;
  if (with_units) {
    run_with_units();
    column.reached = base_reading;
  } else {
    run_full();
  }
  column.on_target = missed() <= 1;
  meets_all();
  column.cold = cold_setting(rule, column.setting);
  column.cold_share = cold_share;
  return std::move(column);
}

SlippingBeam PassPlanner::slipping_beam(double lift) const
{
  return solver::slipping_beam(the_case, workbench.planned_strings.total, share_kept_cold(), lift);
}

void PassPlanner::guess()
{
  const Diagnosis &d = found.diagnosis;
  const double lift =
      string_lift(workbench.neck(), workbench.planned_strings, rod_left_in(the_case));
  LineStiffness line = relaxed_line(workbench.model, phases, heat);
  line.locked_at_body = locked_at_body(the_case);
  const double share =
      std::max(least_share, share_of_slip(slipping_beam(lift), line, moment_of_clamp(the_case),
                                          read_over(the_case)));
  const Reading added = read_at_bench({});
  const double limit = input.tables.limits.most_overbend(the_case.neck.scale_length);
  column.setting.bow = std::clamp(clamp_for(column.wanted.bow - added.bow - lift, rule.found.bow,
                                            d.wood_share(), d.bonded_share, share),
                                  -limit, limit);
  const double twist_sum = d.slip_twist + d.wood_twist;
  const double q = std::abs(twist_sum) > 0 ? d.wood_twist / twist_sum : 0;
  // Twist relaxes at a stiffer line than bending: complete slip is near.
  column.setting.twist =
      clamp_for(column.wanted.twist - added.twist, rule.found.twist, q, d.bonded_twist_share, 1);
  if (input.first_guess)
    column.setting = *input.first_guess;
  if (input.furthest_bow)
    column.setting.bow = std::max(column.setting.bow, *input.furthest_bow);
  column.first_guess = column.setting;
}

// With what the units say, or with what they said on another mesh.
void PassPlanner::begin()
{
  if (input.sensitivity == nullptr) {
    run_with_units();
    aim();
  } else {
    column.sensitivity = *input.sensitivity;
    base_setting = column.setting;
    if (input.furthest_bow && column.setting.bow <= *input.furthest_bow)
      column.limit = Limit::fast_line;
  }
}

// How far the last full run is from the target, in tolerances.
double PassPlanner::missed() const
{
  const cases::Target &t = the_case.target;
  return std::max(std::abs(column.reached.bow - column.wanted.bow) / t.bow_tolerance,
                  std::abs(column.reached.twist - column.wanted.twist) / t.twist_tolerance) /
         input.coarseness;
}

bool PassPlanner::meets_all()
{
  const auto tightest = std::find_if(column.demands.begin(), column.demands.end(),
                                     [&](const Demand &d) { return binds(d); });
  column.within_limits = tightest == column.demands.end();
  if (column.within_limits && column.on_target) {
    column.limit = Limit::none;
    return true;
  }
  if (!column.within_limits && column.limit != Limit::line_does_not_move)
    name_limit(*tightest);
  return false;
}
} // namespace overbend::solver
