// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/what_if.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr unsigned middle = 1, fast = 2;

double way_of(const PassPlan &pass)
{
  return pass.overbend.bow - pass.slack.bow;
}

// Share of the clamped way that a line keeps. A fast line that is let up at a second hot reading
// ends where it is let up to, whatever the clamp was set to before.
double share_kept(const PassPlan &pass, unsigned speed)
{
  if (pass.second && speed == fast)
    return 0;
  const double way = way_of(pass), of_middle = pass.sensitivity.bow_by_bow;
  const double unclamped = pass.strung[middle].bow - of_middle * way;
  return (pass.strung[speed].bow - unclamped) / way;
}

struct Deepest
{
  double way = 0; // as a multiple of the plan's
  std::string because;
};

// Pulls and strength grow with the way, the overbend from straight.
Deepest deepest(const PassPlan &pass, double overbend)
{
  Deepest result{1 + what_if_range, ""};
  for (const Demand &d : pass.demands) {
    if (d.moment == Moment::cold || !(d.share > 0))
      continue;
    const double most = d.limit == Limit::overbend
                            ? 1 + (overbend / d.share - overbend) / way_of(pass)
                            : 1 / d.share;
    if (most < result.way)
      result = {std::max(1., most), d.place};
  }
  return result;
}

// Steps of a size that a straightedge tells apart.
double step_of(double range)
{
  for (const double step : {0.05e-3, 0.1e-3, 0.2e-3})
    if (range / step <= 4)
      return step;
  return 0.5e-3;
}
} // namespace

std::optional<WhatIf> what_if(const PlanReport &report)
{
  if (report.verdict.refused() || !report.job || report.job->passes.empty() ||
      !report.job->line_moves)
    return std::nullopt;
  const Job &job = *report.job;
  const PassPlan &pass = job.passes.front();
  const double way = way_of(pass);
  if (!(std::abs(way) > 0))
    return std::nullopt;
  const double planned = at_bench(report.the_case, pass.overbend, job.diagnosis.as_built).bow;
  const Deepest most = deepest(pass, planned);
  const double step = std::copysign(step_of(what_if_range * std::abs(way)), way);

  WhatIf result;
  result.pass = job.first_pass ? 2 : 1;
  result.deepest_because = most.because;
  const int shallow = int(what_if_range * way / step + 1e-9),
            deep = int((most.way - 1) * way / step + 1e-9);
  for (int k = -shallow; k <= deep; ++k) {
    WhatIfClamp one;
    one.overbend = planned + k * step;
    one.is_the_plan = k == 0;
    for (unsigned speed = 0; speed < one.strung.size(); ++speed)
      one.strung[speed] = pass.strung[speed].bow + share_kept(pass, speed) * k * step;
    result.clamp.push_back(one);
  }
  const HeatChoice &heat = job.heat;
  if (!(heat.kept > 0))
    return result;
  const auto with_share = [&](double share) {
    const double more = share / heat.kept - 1;
    return pass.strung[middle].bow + more * pass.sensitivity.bow_by_bow * way;
  };
  result.with_a_degree = with_share(heat.kept_with_a_degree);
  result.with_an_hour = with_share(heat.kept_with_an_hour);
  return result;
}
} // namespace overbend::solver
