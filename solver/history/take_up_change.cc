// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/take_up_change.h"

#include "solver/words/pull_names.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
std::array<std::optional<double>, 2> take_up_change(const cases::Case &the_case,
                                                    const History &history, const PhaseEnd &phase)
{
  const auto first =
      std::find_if(history.steps.begin(), history.steps.end(),
                   [&](const StepRecord &step) { return step.phase == phase.phase; });
  if (first == history.steps.end())
    throw std::invalid_argument("a phase without steps");
  const bool clamped = phase.phase > 0 && the_case.phases.at(phase.phase - 1).cords;
  std::array<std::optional<double>, 2> change;
  for (unsigned k = 0; k < pull_names(the_case).size(); ++k)
    if (!first->slack[k])
      change[k] =
          first->take_up[k] - (clamped ? history.phases.at(phase.phase - 1).take_up[k] : 0.);
  return change;
}
} // namespace overbend::solver
