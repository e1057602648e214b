// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"
#include "viz/page/show.h"

namespace overbend::viz
{
namespace
{
std::string row(const PlanFile &plan, const std::string &reads, const std::string &then)
{
  return "<tr><td>" + shown(plan, reads + "/bow_centre_m", As::pair) + "</td><td>" + then +
         "</td></tr>\n";
}
} // namespace

std::string second_reading_table(const PlanFile &plan)
{
  const std::string second = "/job/passes/0/second_reading";
  std::string rows = row(plan, second + "/middle_in_the_clamp", "and less: leave it");
  for (std::size_t k = 0; k < plan.size(second + "/faster"); ++k) {
    const std::string one = second + "/faster/" + std::to_string(k);
    const std::string next = second + "/faster/" + std::to_string(k + 1);
    // Lines that are let up alike have one row.
    if (plan.has(next) && plan.at(one + "/let_up_to") == plan.at(next + "/let_up_to"))
      continue;
    rows += row(plan, one + "/in_the_clamp",
                "and beyond: let it up to <b>" +
                    shown(plan, one + "/let_up_to/bow_centre_m", As::pair) + "</b>");
  }
  return "<table class=\"readings\">\n<thead><tr><th scope=\"col\">it reads, mm / thou</th><th "
         "scope=\"col\">then</th></tr></thead>\n<tbody>\n" +
         rows + "</tbody>\n</table>\n";
}

std::string card_second_reading(const PlanFile &plan)
{
  const std::string second = "/job/passes/0/second_reading";
  if (!plan.has(second))
    return "";
  return "<section class=\"again\">\n<h2>Hot again, at " +
         shown(plan, second + "/start_on_clock_s", As::clock) +
         " <small>has it run on?</small></h2>\n" + second_reading_table(plan) + "<p>Fret " +
         shown(plan, "/found/bow_fret", As::count) +
         ", centre. Between the rows in proportion.</p>\n</section>\n";
}
} // namespace overbend::viz
