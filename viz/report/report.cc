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
struct Part
{
  const char *id, *heading;
  std::string (*html)(const PlanFile &);
  bool needs_simulation;
  bool gives_orders = false; // left out of a refusal
};

const std::array<Part, 13> parts = {Part{"verdict", "Should it be done?", report_verdict, false},
                                    Part{"found", "What was found", report_found, false},
                                    Part{"meaning", "What it means", report_meaning, true},
                                    Part{"plan", "The plan", report_plan, true},
                                    Part{"expected", "What to expect", report_expected, true, true},
                                    Part{"stages", "Stage by stage", report_stages, true},
                                    Part{"plots", "Plots", report_plots, true},
                                    Part{"view", "The neck in its stages", report_view, true},
                                    Part{"pictures", "Pictures", report_pictures, true},
                                    Part{"strength", "What might give", report_strength, true},
                                    Part{"customer", "For the customer", report_customer, false},
                                    Part{"cautions", "Cautions", report_cautions, false, true},
                                    Part{"record", "Record of the run", report_record, false}};

// What a refused plan has simulated is not a plan.
std::string heading_of(const PlanFile &plan, const Part &part)
{
  if (plan.refused() && std::string(part.id) == "plan")
    return "What was tried, not to be done";
  return part.heading;
}
} // namespace

std::string report_page(const PlanFile &plan)
{
  std::string contents, body;
  for (const Part &part : parts) {
    if ((part.needs_simulation && !plan.simulated()) || (part.gives_orders && plan.refused()))
      continue;
    const std::string heading = escaped(heading_of(plan, part)), id = part.id;
    contents += "<li><a href=\"#" + id + "\">" + heading + "</a></li>\n";
    body += "<section id=\"" + id + "\" aria-labelledby=\"" + id + "-heading\">\n<h2 id=\"" + id +
            "-heading\">" + heading + "</h2>\n" + part.html(plan) + "</section>\n";
  }
  Document page;
  page.title = "Report: " + (plan.text("/title").empty() ? "neck" : plan.text("/title"));
  page.style = report_style;
  page.body = "<a class=\"skip\" href=\"#main\">Skip to the report</a>\n<header>\n<h1>Report: " +
              shown(plan, "/title", As::text) +
              "</h1>\n</header>\n<nav aria-label=\"Contents\">\n<ol>\n" + contents +
              "</ol>\n</nav>\n<main id=\"main\">\n" + body +
              "</main>\n<footer><p>Estimates, not orders. Lengths in mm and thou, temperatures in "
              "°C and °F, forces in N, kgf and lbf. Forward bow is +; twist is + with the treble "
              "corner of the nut up.</p></footer>\n";
  if (body.find("id=\"neck-data\"") != std::string::npos)
    page.scripts = {three_script, orbit_controls_script, neck_view_script};
  return as_html(page);
}
} // namespace overbend::viz
