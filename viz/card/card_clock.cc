// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

namespace overbend::viz
{
namespace
{
// What the time of a line counts from; the release itself is the last that counts from the heat.
enum class Since { heat, heat_until_release, release };

// One line of the clock. What it counts from is for the script (card.js).
std::string moment(Since since, const std::string &time, const std::string &what)
{
  const std::string mark = since == Since::release              ? " data-from=\"release\""
                           : since == Since::heat_until_release ? " data-step=\"release\""
                                                                : "";
  return "<tr" + mark + "><th scope=\"row\">" + (since == Since::release ? "+" : "") + time +
         "</th><td>" + what + "</td></tr>\n";
}

bool on(const PlanFile &plan, std::size_t phase, const char *what)
{
  return plan.at(plan.phase(phase, what)).get<bool>();
}

std::string what_to_do(const PlanFile &plan, std::size_t i)
{
  const bool hot = on(plan, i, "/heater_on"), cords = on(plan, i, "/cords_on"),
             strings = on(plan, i, "/strings_on");
  const bool hot_before = i > 0 && on(plan, i - 1, "/heater_on"),
             cords_before = i > 0 && on(plan, i - 1, "/cords_on"),
             strings_before = i > 0 && on(plan, i - 1, "/strings_on");
  std::string what;
  if (cords && !cords_before)
    what += on(plan, i, "/pull_decides") ? "clamp cold " : "clamp cold, straight ";
  if (hot && !hot_before)
    what += "<b>heat on</b> ";
  if (on(plan, i, "/pulls_to_a_reading") && cords_before)
    what += "<b>read hot</b>, set the overbend ";
  if (on(plan, i, "/reads_a_second_time"))
    what += std::string("<b>read hot again</b>") +
            (reads_to_let_up(plan) ? ", let it up if it has run on " : ", write it down ");
  if (!hot && hot_before)
    what += cords ? "<b>heat off</b>, leave it clamped " : "heat off ";
  if (!cords && cords_before)
    what += "<b>let go</b>, both sides in turn ";
  if (strings && !strings_before)
    what += "string up, read ";
  return what;
}
} // namespace

std::string card_clock(const PlanFile &plan)
{
  std::string rows;
  bool released = false;
  for (std::size_t i = 0; i < plan.n_phases(); ++i) {
    if (plan.at(plan.phase(i, "/pass")).get<int>() > 1) {
      rows += moment(Since::release, shown(plan, "/clocks/0/end_after_release_s", As::duration),
                     "read it, enter it as [first_pass] in the case, and <b>plan the second "
                     "pass</b>");
      break;
    }
    const std::string what = what_to_do(plan, i);
    const bool lets_go = i > 0 && on(plan, i - 1, "/cords_on") && !on(plan, i, "/cords_on");
    if (!what.empty() && !released)
      rows += moment(lets_go ? Since::heat_until_release : Since::heat,
                     shown(plan, plan.phase(i, "/start_on_clock_s"), As::clock), what);
    else if (!what.empty())
      rows += moment(Since::release,
                     shown(plan, plan.phase(i, "/start_after_release_s"), As::duration), what);
    released = released || lets_go;
  }
  return "<section>\n<h2>Clock</h2>\n<table "
         "class=\"clock\">\n<tbody>\n" +
         rows + "</tbody>\n</table>\n</section>\n";
}
} // namespace overbend::viz
