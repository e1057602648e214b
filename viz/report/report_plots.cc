// SPDX-License-Identifier: GPL-3.0-or-later
// Plots, each with its table beside it.
#include "viz/report/report.h"

#include "viz/page/html.h"
#include "viz/page/show.h"
#include "viz/plots/plots.h"

namespace overbend::viz
{
namespace
{
struct TableColumn
{
  std::string name, key; // of /curves
  As as;
};

// Last point of each phase in the curves, and the one after the start of the first.
std::vector<std::size_t> points_to_show(const PlanFile &plan)
{
  const Json &phases = plan.at("/curves/phase");
  std::vector<std::size_t> points = {0};
  for (std::size_t i = 0; i < phases.size(); ++i)
    if (i + 1 == phases.size() || phases[i + 1] != phases[i])
      points.push_back(i);
  return points;
}

// The numbers of a plot over time: at the ends of the phases, where there are any.
std::string time_table(const PlanFile &plan, const std::string &caption,
                       const std::vector<TableColumn> &columns)
{
  std::vector<std::string> names = {"when"};
  for (const TableColumn &column : columns)
    names.push_back(words(column.name));
  std::string out = table_start(caption, names);
  bool first = true;
  for (const std::size_t i : points_to_show(plan)) {
    const std::size_t phase = plan.at("/curves/phase/" + std::to_string(i)).get<std::size_t>();
    const std::string name = shown(plan, plan.phase(phase, "/name"), As::text);
    out += "<tr><th scope=\"row\">" + (first ? "start of " + name : name) + "</th>";
    for (const TableColumn &column : columns)
      out += "<td>" + shown(plan, "/curves/" + column.key + "/" + std::to_string(i), column.as) +
             "</td>";
    out += "</tr>\n";
    first = false;
  }
  return out + table_end;
}

std::string stage_table(const PlanFile &plan, const std::string &caption, const char *key, As as)
{
  std::vector<std::string> names = {"fret"};
  for (std::size_t s = 0; s < plan.size("/stages"); ++s)
    names.push_back(shown(plan, "/stages/" + std::to_string(s) + "/name", As::text));
  std::string out = table_start(caption, names);
  for (std::size_t row = 0; row < plan.size("/stages/0/by_fret"); ++row) {
    const std::string at = "/by_fret/" + std::to_string(row) + "/";
    out += "<tr><th scope=\"row\">" + shown(plan, "/stages/0" + at + "fret", As::count) + "</th>";
    for (std::size_t s = 0; s < plan.size("/stages"); ++s)
      out += "<td>" + shown(plan, "/stages/" + std::to_string(s) + at + key, as) + "</td>";
    out += "</tr>\n";
  }
  return out + table_end;
}

// Nothing where there is nothing to draw.
std::string figure(Plotter &plotter, const Plot &plot, const std::string &alternative,
                   const std::string &table)
{
  if (plot.curves.empty())
    return "";
  std::string out = "<section class=\"plot\">\n<h3>" + words(plot.title) + "</h3>\n";
  const std::string svg = plotter.draw(plot);
  if (!svg.empty())
    out += "<img width=\"" + std::to_string(plot_width) + "\" height=\"" +
           std::to_string(plot_height) + "\" alt=\"" + escaped(alternative) + "\" src=\"" +
           data_address(svg, "image/svg+xml") + "\">\n";
  return out + table + "</section>\n";
}

const char *const beside = " The table after it holds its numbers.";

std::string along_the_board(const PlanFile &plan, Plotter &plotter)
{
  if (!plan.has("/stages"))
    return "";
  return figure(plotter, free_bow_plot(plan),
                "Lines of the bow on the centre line at each fret, one for each stage out of the "
                "clamp, with the target and the range from a fast to a slow line. The second table "
                "after it holds its numbers.",
                "") +
         figure(plotter, clamp_bow_plot(plan),
                std::string("Lines of the bow on the centre line at each fret, one for each stage "
                            "in the clamp.") +
                    beside,
                stage_table(plan,
                            "Bow on the centre line at each fret, mm / thou; - is past straight",
                            "bow_centre_m", As::pair)) +
         figure(plotter, clamp_change_plot(plan),
                "Lines of the bow on the centre line at each fret, each stage in the clamp less "
                "the one before: what setting again and the heat have changed.",
                "") +
         figure(plotter, twist_plot(plan),
                std::string("Lines of the twist against the body-side rest fret at each fret, one "
                            "for each stage out of the clamp.") +
                    beside,
                stage_table(plan, "Twist against the fret at the body", "twist_rad", As::angle));
}

std::string temperatures(const PlanFile &plan, Plotter &plotter)
{
  if (!plan.has("/curves/bar_K"))
    return "";
  return figure(
      plotter, temperature_plot(plan),
      std::string("Lines over the clock until release: bar, board top, glue line, probe, mid-shaft "
                  "and back, with the limits at which to stop.") +
          beside,
      time_table(plan, "Temperature at the ends of the phases, at the probe's place along the neck",
                 {{"bar", "bar_K", As::temperature},
                  {"board top", "board_top_K", As::temperature},
                  {"glue line, middle", "glue_line_K", As::temperature},
                  {"probe", "probe_K", As::temperature},
                  {"mid-shaft", "mid_shaft_K", As::temperature},
                  {"back", "back_K", As::temperature}}));
}

std::string over_time(const PlanFile &plan, Plotter &plotter)
{
  std::string out = temperatures(plan, plotter);
  out += figure(plotter, cord_plot(plan),
                std::string("Lines over the clock until release: pull on the bass side, pull on "
                            "the treble side, load on the cradle, with the limit of the pull.") +
                    beside,
                time_table(plan, "Pull of the cords at the ends of the phases",
                           {{"bass", "cord_bass_N", As::force},
                            {"treble", "cord_treble_N", As::force},
                            {"cradle", "cradle_N", As::force}}));
  if (plan.has("/curves/slip_nut_end_m"))
    out += figure(plotter, slip_plot(plan),
                  std::string("Lines over the clock: slip at the nut end and at the body end.") +
                      beside,
                  time_table(plan, "Slip, board against shaft, towards the body +",
                             {{"nut end", "slip_nut_end_m", As::signed_both},
                              {"body end", "slip_body_end_m", As::signed_both}}));
  return out;
}
} // namespace

std::string report_plots(const PlanFile &plan)
{
  if (!plan.has("/curves"))
    return "<p>None: nothing was simulated.</p>\n";
  Plotter plotter;
  const std::vector<TableColumn> bows = {{"bass", "bow_bass_m", As::pair},
                                         {"centre", "bow_centre_m", As::pair},
                                         {"treble", "bow_treble_m", As::pair},
                                         {"twist", "twist_rad", As::angle}};
  std::string plots =
      along_the_board(plan, plotter) + over_time(plan, plotter) +
      figure(plotter, bow_plot(plan),
             std::string("Lines of the bow on bass, centre and treble line over the phases, with "
                         "the target and the range from a fast to a slow line.") +
                 beside,
             time_table(plan, "Bow (mm / thou) and twist at the ends of the phases", bows));
  if (has_year(plan))
    plots += figure(plotter, year_plot(plan),
                    std::string("Lines of the bow on bass, centre and treble line over the days "
                                "after release.") +
                        beside,
                    time_table(plan, "Bow (mm / thou) and twist at the ends of the phases", bows));
  else
    plots += "<p>Seasons were not simulated; set <code>schedule.play</code> to see them.</p>\n";
  if (!plotter.why_not().empty())
    plots = "<p class=\"missing\">" + words(plotter.why_not()) + "</p>\n" + plots;
  return plots;
}
} // namespace overbend::viz
