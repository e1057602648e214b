// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/report/report.h"

#include "viz/page/embedded.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

#include <array>

namespace overbend::viz
{
namespace
{
const char *const not_to_be_done = "What was tried, not to be done";

struct Part
{
  const char *id, *heading;
  std::string (*html)(const PlanFile &);
  bool needs_simulation;
  bool gives_orders = false; // left out of a refusal
  bool was_tried = false;    // of a refusal: what was simulated and is not to be done
};

// The answer, what to do and what to expect; then why; then what shows it; then what goes with it.
const std::array<Part, 14> parts = {
    Part{"verdict", "Should it be done?", report_verdict, false},
    Part{"plan", "The plan", report_plan, true, false, true},
    Part{"expected", "What to expect", report_expected, true, true},
    Part{"what-if", "If you clamp it to something else", report_what_if, true, true},
    Part{"strength", "What might give", report_strength, true, false, true},
    Part{"cautions", "Cautions", report_cautions, false, true},
    Part{"found", "What was found", report_found, false},
    Part{"meaning", "What it means", report_meaning, true},
    Part{"view", "The neck in its stages", report_view, true, false, true},
    Part{"pictures", "Pictures", report_pictures, true, false, true},
    Part{"plots", "Plots", report_plots, true, false, true},
    Part{"stages", "Stage by stage", report_stages, true, false, true},
    Part{"customer", "For the customer", report_customer, false},
    Part{"record", "Record of the run", report_record, false}};

bool is_shown(const PlanFile &plan, const Part &part)
{
  return (plan.simulated() || !part.needs_simulation) && !(part.gives_orders && plan.refused());
}

std::string section_of(const PlanFile &plan, const Part &part)
{
  const std::string id = part.id;
  return "<section id=\"" + id + "\" aria-labelledby=\"" + id + "-heading\">\n<h2 id=\"" + id +
         "-heading\">" + escaped(part.heading) + "</h2>\n" + part.html(plan) + "</section>\n";
}

std::string entry(const std::string &id, const std::string &heading)
{
  return "<li><a href=\"#" + id + "\">" + escaped(heading) + "</a></li>\n";
}

struct Body
{
  std::string contents, html;
};

Body body_of(const PlanFile &plan)
{
  Body body;
  std::string tried;
  for (const Part &part : parts) {
    if (!is_shown(plan, part))
      continue;
    if (plan.refused() && part.was_tried) {
      tried += section_of(plan, part);
      continue;
    }
    body.contents += entry(part.id, part.heading);
    body.html += section_of(plan, part);
  }
  if (!tried.empty()) {
    body.contents += entry("tried", not_to_be_done);
    body.html += std::string("<details id=\"tried\">\n<summary>") + escaped(not_to_be_done) +
                 "</summary>\n" + tried + "</details>\n";
  }
  return body;
}
} // namespace

std::string report_page(const PlanFile &plan)
{
  const Body body = body_of(plan);
  Document page;
  page.title = "Report: " + (plan.text("/title").empty() ? "neck" : plan.text("/title"));
  page.style = report_style;
  page.body = "<a class=\"skip\" href=\"#main\">Skip to the report</a>\n<header>\n<h1>Report: " +
              shown(plan, "/title", As::text) +
              "</h1>\n</header>\n<nav aria-label=\"Contents\">\n<ol>\n" + body.contents +
              "</ol>\n</nav>\n<main id=\"main\">\n" + body.html +
              "</main>\n<footer><p>Estimates, not orders. Lengths in mm and thou, temperatures in "
              "°C and °F, forces in N, kgf and lbf. Forward bow is +; twist is + with the treble "
              "corner of the nut up.</p></footer>\n";
  if (body.html.find("id=\"neck-data\"") != std::string::npos)
    page.scripts = {three_script,     orbit_controls_script, neck_colours_script,
                    neck_data_script, neck_keys_script,      neck_view_script};
  return as_html(page);
}
} // namespace overbend::viz
