// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan_text_parts.h"

#include "cases/climate.h"
#include "cases/units.h"
#include "solver/plan_steps.h"
#include "solver/shop_words.h"

#include <algorithm>

namespace overbend::solver::text
{
namespace
{
// The day of a step in a phase of play: after release, with the month where the case tells months.
std::string day_of_play(const cases::Case &c, const cases::Phase &phase, double start, double time)
{
  std::string day = when(c, time);
  if (!phase.climate.points.empty() && phase.climate.file.empty()) {
    constexpr double month = 365.25 * 86400 / 12;
    const auto gone = std::size_t(std::max(0., time - start - 1) / month);
    day += " (" + cases::month_names().at((std::size_t(phase.climate.month) + gone) % 12) + ")";
  }
  return day;
}
} // namespace

// How far bow and twist go in the months of play after the target is read.
void months_of_play(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  const std::vector<double> starts = phase_starts(c);
  for (const PhaseEnd &end : p.history.phases) {
    const cases::Phase &phase = c.phases[end.phase];
    if (end.phase <= phase_at_date(c.phases))
      continue;
    std::vector<const StepRecord *> steps;
    for (const StepRecord &step : p.history.steps)
      if (step.phase == end.phase)
        steps.push_back(&step);
    const auto bows = std::minmax_element(steps.begin(), steps.end(), [](auto *a, auto *b) {
      return a->reading.bow < b->reading.bow;
    });
    const auto twists = std::minmax_element(steps.begin(), steps.end(), [](auto *a, auto *b) {
      return a->reading.twist < b->reading.twist;
    });
    const auto told = [&](const StepRecord *step, bool twist) {
      const Reading r = at_bench(step->reading, p.diagnosis.as_built);
      return (twist ? cases::degrees(r.twist) : signed_length(r.bow)) + " at " +
             day_of_play(c, phase, starts[end.phase], step->time);
    };
    paragraph(out, "Lived with afterwards (\"" + phase.name + "\"): bow at the centre from " +
                       told(*bows.first, false) + " to " + told(*bows.second, false) +
                       "; twist from " + told(*twists.first, true) + " to " +
                       told(*twists.second, true) + ".");
  }
}
} // namespace overbend::solver::text
