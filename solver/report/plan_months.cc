// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_months.h"

#include "cases/case/climate.h"
#include "solver/report/pass_clock.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
// The month of a step in a phase of play, where the case tells months.
std::string month_of(const cases::Phase &phase, double start, double time)
{
  if (phase.climate.points.empty() || !phase.climate.file.empty())
    return "";
  constexpr double month = 365.25 * 86400 / 12;
  const auto gone = std::size_t(std::max(0., time - start - 1) / month);
  return cases::month_names().at((std::size_t(phase.climate.month) + gone) % 12);
}

PlayExtremes extremes(const PlanReport &report, const PhaseEnd &end)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  const cases::Phase &phase = c.phases[end.phase];
  PlayExtremes e;
  e.phase = phase.name;
  bool first = true;
  for (const StepRecord &step : p.history.steps) {
    if (step.phase != end.phase)
      continue;
    const Reading r = at_bench(c, step.reading, p.diagnosis.as_built);
    const double start = end.time - phase.duration;
    const auto moment = [&](double value) {
      return PlayMoment{value, last_clock(c).after_release(step.time),
                        month_of(phase, start, step.time)};
    };
    if (first || r.bow < e.least_bow.value)
      e.least_bow = moment(r.bow);
    if (first || r.bow > e.most_bow.value)
      e.most_bow = moment(r.bow);
    if (first || r.twist < e.least_twist.value)
      e.least_twist = moment(r.twist);
    if (first || r.twist > e.most_twist.value)
      e.most_twist = moment(r.twist);
    first = false;
  }
  return e;
}
} // namespace

std::vector<PlayExtremes> extremes_of_play(const PlanReport &report)
{
  std::vector<PlayExtremes> all;
  if (report.columns.empty())
    return all;
  for (const PhaseEnd &end : report.main_column().history.phases)
    if (end.phase > phase_at_date(report.the_case.phases))
      all.push_back(extremes(report, end));
  return all;
}
} // namespace overbend::solver
