// SPDX-License-Identifier: GPL-3.0-or-later
// What a bench reads at each stage, what the glue lines do and how much strength is in use.
#include "viz/report/report.h"

#include "viz/page/html.h"
#include "viz/page/show.h"

#include "solver/words/shop_words.h"

namespace overbend::viz
{
namespace
{
std::string cell(const std::string &inner)
{
  return "<td>" + inner + "</td>";
}

std::string stage_at(std::size_t i)
{
  return "/stages/" + std::to_string(i);
}

std::string row(const PlanFile &plan, const std::string &stage)
{
  return "<tr><th scope=\"row\">" + shown(plan, stage + "/name", As::text) + "</th>";
}

std::string edge(const PlanFile &plan, const std::string &at)
{
  return plan.text(at + "/lies") == "rocks"
             ? "rocks on fret " + shown(plan, at + "/hump_fret", As::count) + ", " +
                   shown(plan, at + "/end_gap_m", As::length) + " at each end"
             : "gap " + shown(plan, at + "/gap_m", As::length) + " at fret " +
                   shown(plan, at + "/gap_fret", As::count);
}

// A caption is the words of the plan with a capital.
std::string edge_of(const PlanFile &plan)
{
  const bool wood = plan.text("/found/edge_on") == "wood";
  return wood                                   ? "Notched straightedge on the wood"
         : plan.size("/found/fret_heights") > 0 ? "Straightedge on the frets as they are"
                                                : "Straightedge on the frets";
}

std::string edge_table(const PlanFile &plan)
{
  std::string out = table_start(edge_of(plan) + ", balanced where it rocks",
                                {"stage", "bass", "centre", "treble"});
  for (std::size_t i = 0; i < plan.size("/stages"); ++i) {
    const std::string at = stage_at(i);
    out += row(plan, at);
    for (const char *line : {"bass", "centre", "treble"})
      out += cell(edge(plan, at + "/straightedge/" + line));
    out += "</tr>\n";
  }
  return out + table_end;
}

std::string sticks_table(const PlanFile &plan)
{
  std::string out =
      table_start("Winding sticks (+: treble corner of the nut up), and the gap under "
                  "the outer strings held down",
                  {"stage", "sticks", "string, bass", "string, treble"});
  for (std::size_t i = 0; i < plan.size("/stages"); ++i) {
    const std::string at = stage_at(i);
    out += row(plan, at) + cell(shown(plan, at + "/winding_sticks/at_the_tips_m", As::signed_both));
    for (const char *line : {"bass", "treble"}) {
      const std::string string = at + "/string_held_down/" + line;
      out += cell(plan.at(at + "/strings_on").get<bool>()
                      ? shown(plan, string + "/gap_m", As::length) + " at fret " +
                            shown(plan, string + "/fret", As::count)
                      : "-");
    }
    out += "</tr>\n";
  }
  return out + table_end;
}

std::string glue_table(const PlanFile &plan)
{
  std::string out = table_start(
      "Glue lines: slip of the upper against the lower side, and shear averaged over the "
      "ends; towards the body +",
      {"stage", "line", "slip, nut end", "slip, body end", "shear, nut end", "shear, body end"});
  for (std::size_t i = 0; i < plan.size("/stages"); ++i) {
    const std::string stage = stage_at(i);
    for (std::size_t l = 0; l < plan.size(stage + "/glue_lines"); ++l) {
      const std::string line = stage + "/glue_lines/" + std::to_string(l);
      out += row(plan, stage) + cell(shown(plan, line + "/line", As::text)) +
             cell(shown(plan, line + "/slip_nut_end_m", As::signed_both)) +
             cell(shown(plan, line + "/slip_body_end_m", As::signed_both)) +
             cell(shown(plan, line + "/shear_nut_end_10_mm_Pa", As::megapascal)) +
             cell(shown(plan, line + "/shear_body_end_10_mm_Pa", As::megapascal)) + "</tr>\n";
    }
  }
  return out + table_end;
}

std::string strength_table(const PlanFile &plan)
{
  const std::string first = stage_at(0) + "/use_of_strength";
  std::vector<std::string> names = {"stage"};
  for (std::size_t r = 0; r < plan.size(first); ++r)
    names.push_back(shown(plan, first + "/" + std::to_string(r) + "/region", As::text));
  std::string out =
      table_start("Share of its strength that each part uses, at its temperature then", names);
  for (std::size_t i = 0; i < plan.size("/stages"); ++i) {
    const std::string stage = stage_at(i);
    out += row(plan, stage);
    for (std::size_t r = 0; r < plan.size(first); ++r)
      out +=
          cell(shown(plan, stage + "/use_of_strength/" + std::to_string(r) + "/share_of_strength",
                     As::percent));
    out += "</tr>\n";
  }
  return out + table_end;
}
} // namespace

std::string report_stages(const PlanFile &plan)
{
  if (!plan.has("/stages"))
    return "";
  std::string out = edge_table(plan) + sticks_table(plan);
  if (plan.has(stage_at(0) + "/glue_lines"))
    out += glue_table(plan) + strength_table(plan);
  return out;
}
} // namespace overbend::viz
