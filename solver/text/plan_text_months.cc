// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/units.h"
#include "solver/report/plan_months.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/shop_words.h"

namespace overbend::solver::text
{
namespace
{
std::string day_in_words(const PlayMoment &moment)
{
  return cases::clock(moment.after_release) + " after release" +
         (moment.month.empty() ? "" : " (" + moment.month + ")");
}
} // namespace

void months_of_play(std::ostringstream &out, const PlanReport &report)
{
  const auto bow = [](const PlayMoment &m) {
    return signed_length(m.value) + " at " + day_in_words(m);
  };
  const auto twist = [](const PlayMoment &m) {
    return cases::degrees(m.value) + " at " + day_in_words(m);
  };
  for (const PlayExtremes &e : extremes_of_play(report))
    paragraph(out, "Lived with afterwards (\"" + e.phase + "\"): bow at the centre from " +
                       bow(e.least_bow) + " to " + bow(e.most_bow) + "; twist from " +
                       twist(e.least_twist) + " to " + twist(e.most_twist) + ".");
}
} // namespace overbend::solver::text
