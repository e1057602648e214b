// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

namespace overbend::viz
{
namespace
{
std::string number(std::size_t value)
{
  return std::to_string(value);
}

// "Lived with (play): bow +0.10 mm (+3.9 thou), June, to ..." for each phase of play.
std::string card_months(const PlanFile &plan)
{
  std::string out;
  for (std::size_t i = 0; i < plan.size("/months_of_play"); ++i) {
    const std::string at = "/months_of_play/" + number(i);
    const auto moment = [&](const std::string &which, const std::string &key, As as) {
      const std::string here = at + "/" + which;
      return shown(plan, here + "/" + key, as) + " (" +
             (plan.has(here + "/month") ? shown(plan, here + "/month", As::text) + ", " : "") +
             "+" + shown(plan, here + "/after_release_s", As::duration) + ")";
    };
    out += "<p><b>Later</b>, " + shown(plan, at + "/phase", As::text) + ": bow " +
           moment("least_bow", "bow_centre_m", As::signed_both) + " to " +
           moment("most_bow", "bow_centre_m", As::signed_both) + "; twist " +
           moment("least_twist", "twist_rad", As::angle) + " to " +
           moment("most_twist", "twist_rad", As::angle) + ".</p>\n";
  }
  return out;
}
} // namespace

namespace
{
// Short, for a narrow column; the report has the long name.
std::string occasion(const PlanFile &plan, const std::string &at)
{
  const std::string word = plan.text(at + "/occasion");
  if (word == "released")
    return "released";
  if (word == "before_second_pass")
    return "rested";
  return word == "strung" ? "strung" : shown(plan, at + "/name", As::text);
}

// Of the pass that the card is for: of two passes the first, since the second is planned anew.
std::string expected_rows(const PlanFile &plan)
{
  std::string rows;
  for (std::size_t i = 0; i < plan.size("/expected"); ++i) {
    const std::string at = "/expected/" + number(i), word = plan.text(at + "/occasion");
    if (word == "before_strings")
      continue; // the report has it
    rows += "<tr><th scope=\"row\">" + occasion(plan, at) + "</th><td class=\"figure\">" +
            shown(plan, at + "/reading/bow_centre_m", As::mm) + " <span class=\"thou\">" +
            shown(plan, at + "/reading/bow_centre_m", As::thou) + "</span></td><td>" +
            shown(plan, at + "/high/bow_centre_m", As::mm) + " to " +
            shown(plan, at + "/low/bow_centre_m", As::mm) + "</td><td>" +
            shown(plan, at + "/reading/twist_rad", As::angle) + "</td></tr>\n";
    if (word == "before_second_pass")
      break;
  }
  return rows;
}
} // namespace

namespace
{
bool has_second_pass(const PlanFile &plan)
{
  for (std::size_t i = 0; i < plan.size("/expected"); ++i)
    if (plan.text("/expected/" + number(i) + "/occasion") == "before_second_pass")
      return true;
  return false;
}
} // namespace

std::string card_expect(const PlanFile &plan)
{
  return "<section>\n<h2 id=\"expect\">Expect <small>centre, fret " +
         shown(plan, "/found/bow_fret", As::count) +
         ", mm and thou</small></h2>\n<table class=\"expect\" aria-labelledby=\"expect\">\n"
         "<thead><tr><td></td><th scope=\"col\">bow</th><th scope=\"col\">slow to fast</th>"
         "<th scope=\"col\">twist</th></tr></thead>\n"
         "<tbody>\n" +
         expected_rows(plan) + "</tbody>\n</table>\n" + card_months(plan) +
         (has_second_pass(plan)
              ? "<p><b>Whatever it reads:</b> enter it and plan again; never a "
                "third pass.</p>\n"
              : "<p><b>More forward:</b> enter it and plan the second pass; never "
                "a third.</p>\n<p><b>More back:</b> leave it strung " +
                    fixed_words("48 h") + ", read again.</p>\n") +
         "</section>\n";
}

std::string card_stop(const PlanFile &plan)
{
  std::string signs;
  for (std::size_t i = 0; i < plan.size("/stops/signs"); ++i)
    signs += (i > 0 ? "; " : "") + shown(plan, "/stops/signs/" + number(i), As::text);
  return "<section class=\"stop\">\n<h2>Stop if</h2>\n<p>" + signs +
         "; bar or probe above its figure to stop at.</p>\n</section>\n"
         "<section class=\"cautions\">\n<h2>Take care</h2>\n" +
         shown_list(plan, "/card_cautions") + "</section>\n";
}

// What has to be slack, out and at hand before anything is clamped.
std::string card_before(const PlanFile &plan)
{
  return std::string("<section class=\"before\">\n<h2>Before you start</h2>\n<p>Strings off, rod "
                     "slack, nut ") +
         (plan.at("/set_up/nut_in_its_slot").get<bool>() ? "in" : "out") +
         ". A second thermometer on the bar. Extinguisher and metal tray at hand. Lamp on "
         "headstock "
         "and heel: no open crack.</p>\n</section>\n";
}

// Room for what was really done and read.
std::string card_strip()
{
  std::string cells;
  for (const char *what :
       {"date", "by", "heat on at", "cold", "hot", "released", "rested", "strung"})
    cells += std::string("<td><span>") + what + "</span></td>";
  return "<section class=\"strip\">\n<table aria-label=\"what was done and read\">\n<tbody><tr>" +
         cells + "</tr></tbody>\n</table>\n</section>\n";
}
} // namespace overbend::viz
