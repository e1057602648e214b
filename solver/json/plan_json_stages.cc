// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"
#include "solver/report/plan_stages.h"
#include "solver/words/shop_words.h"

namespace overbend::solver
{
namespace
{
// What one line shows, under the name of each line.
template <typename OfLine>
Json each_line(const StageReadings &r, const OfLine &of_line)
{
  Json all;
  for (unsigned k = 0; k < 3; ++k)
    all[line_names[k]] = of_line(r.line[k]);
  return all;
}

Json edge(const LineReadings &line)
{
  const EdgeOnLine &e = line.edge;
  if (e.rocks)
    return {{"lies", "rocks"}, {"hump_fret", e.hump_fret}, {"end_gap_m", e.end_gap}};
  return {{"lies", "rests"},
          {"rest_frets", {e.rest_a, e.rest_b}},
          {"gap_m", e.deepest_gap},
          {"gap_fret", e.deepest_gap_fret}};
}

Json deepest(const LineReadings &line)
{
  return {{"bow_m", line.deepest_bow}, {"fret", line.deepest_fret}};
}

Json relief(const StageReadings &r)
{
  Json all;
  for (const unsigned k : {0u, 2u})
    all[line_names[k]] = {{"gap_m", r.line[k].relief}, {"fret", r.line[k].relief_fret}};
  return all;
}

// Bow, gap under the edge as it lies, and twist at each fret between the rest frets.
Json by_fret(const cases::Case &c, const PlanStage &stage)
{
  Json all = Json::array();
  for (int fret = c.found.rest_fret_a; fret <= c.found.rest_fret_b; ++fret) {
    const auto i = std::size_t(fret - c.found.rest_fret_a);
    Json one = {{"fret", fret}, {"x_m", cases::fret_position(c.neck.scale_length, fret)}};
    for (unsigned k = 0; k < 3; ++k)
      one[std::string("bow_") + line_names[k] + "_m"] = stage.readings.line[k].bow_by_fret.at(i);
    for (unsigned k = 0; k < 3; ++k)
      one[std::string("gap_") + line_names[k] + "_m"] = stage.readings.line[k].edge.gap.at(i);
    one["twist_rad"] = stage.twist_by_fret.at(i);
    all.push_back(one);
  }
  return all;
}

Json glue_lines(const BenchState &state)
{
  Json all = Json::array();
  for (const auto &[name, ends] : state.line)
    all.push_back({{"line", name},
                   {"slip_nut_end_m", ends.slip_nut_end},
                   {"slip_body_end_m", ends.slip_body_end},
                   {"shear_nut_end_10_mm_Pa", ends.shear_nut_end},
                   {"shear_body_end_10_mm_Pa", ends.shear_body_end},
                   {"largest_shear_over_10_mm_Pa", ends.shear},
                   {"largest_shear_x_m", ends.shear_x}});
  return all;
}

Json strength(const BenchState &state)
{
  Json all = Json::array();
  for (const auto &[region, use] : state.use)
    all.push_back({{"region", name(region)},
                   {"share_of_strength", use.value},
                   {"mode", use.mode},
                   {"x_m", use.place[0]}});
  return all;
}

Json one_stage(const cases::Case &c, const PlanStage &stage)
{
  Json all = {{"name", stage.name},
              {"phase", stage.phase},
              {"moment", stage.moment},
              {"time_s", stage.time},
              {"strings_on", stage.strings},
              {"reading", json_of(stage.reading)},
              {"deepest_bow", each_line(stage.readings, deepest)},
              {"straightedge", each_line(stage.readings, edge)},
              {"string_held_down", relief(stage.readings)},
              {"winding_sticks",
               {{"length_m", stick_length}, {"at_the_tips_m", stage.readings.over_sticks}}},
              {"by_fret", by_fret(c, stage)}};
  if (stage.state != nullptr) {
    all["glue_lines"] = glue_lines(*stage.state);
    all["use_of_strength"] = strength(*stage.state);
  }
  return all;
}
} // namespace

void add_stages(const PlanReport &report, Json &plan)
{
  Json all = Json::array();
  for (const PlanStage &stage : plan_stages(report))
    all.push_back(one_stage(report.the_case, stage));
  if (!all.empty())
    plan["stages"] = all;
}
} // namespace overbend::solver
