// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/page/show.h"
#include "viz/report/report.h"

namespace overbend::viz
{
namespace
{
std::string clamp_row(const PlanFile &plan, const std::string &at)
{
  const bool planned = plan.at(at + "/is_the_plan").get<bool>();
  const auto bow = [&](const std::string &key) {
    return "<td>" + shown(plan, at + key, As::pair) + "</td>";
  };
  return std::string(planned ? "<tr class=\"planned\">" : "<tr>") + "<th scope=\"row\">" +
         shown(plan, at + "/overbend_m", As::pair) + (planned ? " (the plan)" : "") + "</th>" +
         bow("/strung_m/slow") + bow("/strung_m/middle") + bow("/strung_m/fast") + "</tr>\n";
}
} // namespace

std::string report_what_if(const PlanFile &plan)
{
  if (!plan.has("/what_if"))
    return "<p>Nothing to compare: no pass is planned.</p>\n";
  std::string out =
      "<table>\n<caption>Clamped hot to something else in pass " +
      shown(plan, "/what_if/pass", As::count) +
      ": what it then reads strung, at the date asked, if it is strung after that pass. Bows on "
      "the centre line, mm / thou, forward +</caption>\n<thead><tr><th scope=\"col\">clamped "
      "to</th><th scope=\"col\">slow line</th><th scope=\"col\">middle line</th><th "
      "scope=\"col\">fast line</th></tr></thead>\n<tbody>\n";
  for (std::size_t i = 0; i < plan.size("/what_if/clamp"); ++i)
    out += clamp_row(plan, "/what_if/clamp/" + std::to_string(i));
  out += "</tbody></table>\n<p>From the plan's own answer to small changes, without another run. ";
  if (plan.has("/what_if/deepest_because"))
    out += "Deeper than the table goes, " + shown(plan, "/what_if/deepest_because", As::text) +
           " comes to its limit. ";
  if (plan.has("/what_if/strung_with_a_degree_more_m"))
    out +=
        "One kelvin more at the bar: " +
        shown(plan, "/what_if/strung_with_a_degree_more_m", As::signed_both) +
        "; one hour more: " + shown(plan, "/what_if/strung_with_an_hour_more_m", As::signed_both) +
        " (middle line, clamped as planned). The limits of the heat stay what they are. ";
  out += "For other changes plan the case again, or several at once with <code>overbend "
         "vary</code>.</p>\n";
  return out;
}
} // namespace overbend::viz
