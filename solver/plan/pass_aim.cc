// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/pass_planner.h"

#include "solver/plan/work_bounds.h"

#include <algorithm>
#include <cmath>

// Where the unit histories say that the target is, and how far on the way there limits let it go.
namespace overbend::solver
{
namespace
{
// A setting that a limit stops is brought to this share of the limit, and is close enough to it
// from the second on.
constexpr double aimed_at_limit = 0.98, close_to_limit = 0.95;
// Twist (rad) off the line to the target up to which forces are extrapolated along it.
constexpr double near_the_line = 0.2 * 3.14159265358979323846 / 180;
// Settings closer than this along the way are one (m).
constexpr double least_way = 1e-5;
} // namespace

// Moves the setting to where the units say that the target is.
void PassPlanner::aim()
{
  const Sensitivity &s = column.sensitivity;
  const double bow = column.wanted.bow - base_reading.bow,
               twist = column.wanted.twist - base_reading.twist;
  if (!(s.bow_by_bow > input.tables.limits.least_kept)) {
    column.limit = Limit::line_does_not_move;
    column.setting = base_setting;
    return;
  }
  const double det = s.bow_by_bow * s.twist_by_twist - s.bow_by_twist * s.twist_by_bow;
  if (pulls_reached && std::abs(s.twist_by_twist) > 1e-6) {
    column.setting.bow = base_setting.bow + (bow * s.twist_by_twist - twist * s.bow_by_twist) / det;
    column.setting.twist = base_setting.twist + (twist * s.bow_by_bow - bow * s.twist_by_bow) / det;
  } else {
    column.setting.bow = base_setting.bow + bow / s.bow_by_bow;
  }
  look_ahead();
}

// Before a run: how far along the line from the neck at hand to the setting its limits let it go,
// by what the last run asked of bench and neck.
void PassPlanner::look_ahead()
{
  full = column.setting;
  way_share = 1;
  keep_within_overbend();
  keep_forward_of_fast_line();
  keep_within_forces();
  column.setting = {rule.found.bow + way_share * (full.bow - rule.found.bow),
                    rule.found.twist + way_share * (full.twist - rule.found.twist)};
}

void PassPlanner::keep_within_overbend()
{
  const double as_built = column.diagnosis.as_built.bow;
  const double over = overbend_share(full, column.diagnosis.as_built, the_case.neck.scale_length,
                                     input.tables.limits);
  const double way = full.bow - rule.found.bow;
  if (!(over > 1) || std::abs(way) < least_way)
    return;
  const double bow = full.bow + as_built;
  way_share = 1 - (bow - bow / over) / way;
  column.limit = Limit::overbend;
}

void PassPlanner::keep_forward_of_fast_line()
{
  const double way = full.bow - rule.found.bow;
  if (!input.furthest_bow || std::abs(way) < least_way)
    return;
  const double share = std::max(0., (*input.furthest_bow - rule.found.bow) / way);
  if (full.bow < *input.furthest_bow && share < way_share) {
    way_share = share;
    column.limit = Limit::fast_line;
  }
}

// Forces grow with the way only if the twist keeps its part of it.
void PassPlanner::keep_within_forces()
{
  const double way = full.bow - rule.found.bow, last_way = base_setting.bow - rule.found.bow;
  if (std::abs(way) < least_way || std::abs(last_way) < least_way)
    return;
  const double twist_there = rule.found.twist + last_way / way * (full.twist - rule.found.twist);
  if (!(std::abs(base_setting.twist - twist_there) < near_the_line * std::abs(last_way / way)))
    return;
  for (const Demand &d : column.demands) {
    if (d.moment == Moment::cold) {
      spare_the_cold_pull(d);
      continue;
    }
    const double expected = d.share * std::abs(way_share * way / last_way);
    if (d.limit == Limit::overbend || !(expected > 1))
      continue;
    way_share *= aimed_at_limit / expected;
    name_limit(d);
  }
}

// A cold pull beyond a limit goes less far; what is missing comes when the line is soft.
void PassPlanner::spare_the_cold_pull(const Demand &d)
{
  if (d.share > 1 && !phases_decide_cold())
    rule.cold_share = std::min(rule.cold_share, cold_share_run * aimed_at_limit / d.share);
}

void PassPlanner::name_limit(const Demand &demand)
{
  column.limit = demand.limit;
  column.limit_place = demand.region;
}

// Whether a new aim stops at its limit where the last run did, give or take what is left of it.
bool PassPlanner::has_settled() const
{
  const double near = 1.2 * (1 - close_to_limit);
  return std::abs(column.setting.bow - base_setting.bow) <
             near * std::abs(base_setting.bow - rule.found.bow) + least_way &&
         std::abs(column.setting.twist - base_setting.twist) <
             near * std::abs(base_setting.twist - rule.found.twist) +
                 the_case.target.twist_tolerance;
}
} // namespace overbend::solver
