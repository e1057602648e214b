// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"

#include "viz/page/embedded.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

namespace overbend::viz
{
namespace
{
std::string title_of(const PlanFile &plan)
{
  return plan.text("/title").empty() ? "neck" : plan.text("/title");
}

std::string head(const PlanFile &plan)
{
  const bool go = !plan.refused() && plan.simulated();
  const std::string verdict =
      go ? "<p class=\"verdict\">" + shown(plan, "/verdict/kind", As::text) + "</p>\n" : "";
  return "<header>\n<div class=\"top\">\n<h1>Bench card: " + shown(plan, "/title", As::text) +
         "</h1>\n" + verdict + "</div>\n<p>" + shown(plan, "/instrument/preset", As::text) +
         ", scale " + shown(plan, "/instrument/scale_length_m", As::length) + ", body at fret " +
         shown(plan, "/instrument/join_fret", As::count) + ", board's glue " +
         shown(plan, "/instrument/board_glue", As::text) + ", finish " +
         shown(plan, "/instrument/finish", As::text) + ", binding " +
         shown(plan, "/instrument/binding", As::text) + ".</p>\n</header>\n";
}

std::string refusal(const PlanFile &plan)
{
  std::string out = "<main>\n<h2 class=\"no\">" + shown(plan, "/verdict/kind", As::text) +
                    "</h2>\n<div class=\"why\">" + shown_list(plan, "/verdict/reasons") +
                    "</div>\n";
  if (plan.size("/verdict/alternatives") > 0)
    out += "<section class=\"instead\">\n<h2>Instead</h2>\n" +
           shown_list(plan, "/verdict/alternatives") + "</section>\n";
  if (plan.size("/verdict/cautions") > 0)
    out +=
        "<section>\n<h2>Also know</h2>\n" + shown_list(plan, "/verdict/cautions") + "</section>\n";
  return out + "</main>\n";
}

std::string go_ahead(const PlanFile &plan)
{
  // On a phone the running clock comes first; the script fills its place.
  return "<main>\n<div id=\"running\"></div>\n" + card_before(plan) + card_sketch(plan) +
         "<div class=\"columns\">\n<div>\n" + card_cold(plan) + card_hot(plan) +
         card_second_reading(plan) + "</div>\n<div>\n" + card_heat(plan) + card_clock(plan) +
         card_expect(plan) + "</div>\n</div>\n" + card_stop(plan) + card_strip() + "</main>\n";
}
} // namespace

namespace
{
std::size_t first_phase(const PlanFile &plan, const char *flag)
{
  for (std::size_t i = 0; i < plan.n_phases(); ++i)
    if (plan.at(plan.phase(i, flag)).get<bool>())
      return i;
  return plan.n_phases();
}
} // namespace

std::size_t cold_phase(const PlanFile &plan)
{
  return first_phase(plan, "/pulls_to_a_reading");
}

std::size_t deciding_phase(const PlanFile &plan)
{
  return first_phase(plan, "/pull_decides");
}

namespace
{
// The first digits of the case's hash: which case a sheet on the bench belongs to.
std::string plan_code(const PlanFile &plan)
{
  constexpr std::size_t digits = 8;
  const std::string hash = plan.text("/record/case SHA-256");
  return hash.empty() ? "without code" : escaped(hash.substr(0, digits));
}
} // namespace

std::string bench_card(const PlanFile &plan)
{
  Document page;
  page.title = "Bench card: " + title_of(plan);
  page.style = card_style;
  const bool no = plan.refused() || !plan.simulated();
  if (!no) {
    page.scripts = {card_script};
    page.plan = plan_code(plan);
  }
  page.body = head(plan) + (no ? refusal(plan) : go_ahead(plan)) +
              "<footer><p>Estimates, not orders; local rules for fire and electricity come first. "
              "All cautions, and why: report.html. Plan " +
              fixed_words(plan_code(plan)) + ".</p></footer>\n";
  return as_html(page);
}
} // namespace overbend::viz
