// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"
#include "viz/page/show.h"

namespace overbend::viz
{
namespace
{
const std::string second = "/job/passes/0/second_reading";

std::string row(const PlanFile &plan, const char *from, const std::string &reads,
                const std::string &then)
{
  return std::string("<tr><th scope=\"row\">") + from + "</th><td>" +
         big_and_small(plan, reads + "/bow_centre_m") + "</td><td>" + then + "</td></tr>\n";
}
} // namespace

bool reads_to_let_up(const PlanFile &plan)
{
  return plan.has(second);
}

std::string second_reading_table(const PlanFile &plan)
{
  std::string rows = row(plan, "up to", second + "/middle_in_the_clamp", "leave it");
  for (std::size_t k = 0; k < plan.size(second + "/faster"); ++k) {
    const std::string one = second + "/faster/" + std::to_string(k);
    const std::string next = second + "/faster/" + std::to_string(k + 1);
    // Lines that are let up alike have one row.
    if (plan.has(next) && plan.at(one + "/let_up_to") == plan.at(next + "/let_up_to"))
      continue;
    rows += row(plan, "from", one + "/in_the_clamp",
                "let up to " + big_and_small(plan, one + "/let_up_to/bow_centre_m"));
  }
  return "<table class=\"again\" aria-label=\"second hot reading\">\n<tbody>\n" + rows +
         "</tbody>\n</table>\n";
}

std::string card_second_reading(const PlanFile &plan)
{
  if (!reads_to_let_up(plan))
    return "";
  return "<section>\n<h2>Hot again, at " + shown(plan, second + "/start_on_clock_s", As::clock) +
         " <small>has it run on? mm, thou</small></h2>\n" + second_reading_table(plan) +
         "<p>Fret " + shown(plan, "/found/bow_fret", As::count) +
         ", centre. Between the rows in proportion.</p>\n</section>\n";
}
} // namespace overbend::viz
