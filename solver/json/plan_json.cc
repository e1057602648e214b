// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json.h"

#include "solver/json/plan_json_parts.h"
#include "solver/report/pass_clock.h"
#include "solver/report/step_words.h"
#include "solver/words/pull_names.h"

#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
Json json_of(const Reading &r)
{
  return {{"bow_bass_m", r.bow_bass},
          {"bow_centre_m", r.bow},
          {"bow_treble_m", r.bow_treble},
          {"twist_rad", r.twist}};
}

Json bass_and_treble(const std::array<double, 2> &values)
{
  return {{"bass", values[0]}, {"treble", values[1]}};
}

namespace
{
Json verdict(const Verdict &v)
{
  return {{"kind", in_words(v.kind)},       {"word", word(v.kind)},
          {"refused", v.refused()},         {"reasons", v.reasons},
          {"cautions", v.shown_cautions()}, {"alternatives", v.alternatives}};
}

// What the strings do to the neck, and what that tells of its wood.
void add_strings(const PlanReport &report, Json &json)
{
  json["stiffness_factor"] =
      report.stiffness_factor ? Json(*report.stiffness_factor) : Json(nullptr);
  if (report.lifts)
    json["strings"] = {{"lift_found_m", report.lifts->found},
                       {"lift_planned_m", report.lifts->planned},
                       {"tension_found_N", report.found_tension},
                       {"tension_planned_N", report.planned_tension}};
}

Json warmth_of(const LineWarmth &line)
{
  return {{"nut_end_K", line.nut_end},
          {"middle_K", line.middle},
          {"body_end_K", line.body_end},
          {"nut_end_Pa", line.nut_modulus},
          {"middle_Pa", line.middle_modulus},
          {"body_end_Pa", line.body_modulus},
          {"hot_time_s", line.hot_time},
          {"humidity_before", line.humidity_before},
          {"humidity", line.humidity},
          {"humidity_driest", line.driest},
          {"softens_before_K", line.softens_before},
          {"softens_driest_K", line.softens_driest}};
}

// JSON has no word for a number that is not finite, and the library would write null.
void check_finite(const Json &json, const std::string &path = "")
{
  if (json.is_number_float() && !std::isfinite(json.get<double>()))
    throw std::invalid_argument("the plan's " + path + " is not a finite number");
  if (json.is_structured())
    for (const auto &[key, value] : json.items())
      check_finite(value, path + "/" + key);
}
} // namespace

std::string plan_json(const PlanReport &report, const Record &record)
{
  const cases::Case &c = report.the_case;
  Json json = {
      {"format", "overbend plan"},
      {"format_number", 7},
      {"title", c.title},
      {"verdict", verdict(report.verdict)},
      {"standing_cautions",
       report.verdict.refused() ? cautions_of_a_refusal() : standing_cautions(c)},
      {"found", found_json(c)},
      {"target",
       {{"relief_m", c.target.relief},
        {"twist_rad", c.target.twist},
        {"after_release_s", c.target.after_release},
        {"bow_tolerance_m", c.target.bow_tolerance},
        {"twist_tolerance_rad", c.target.twist_tolerance}}},
      {"cord_limit_N", c.bench.cord_limit},
      {"pulls", pull_names(c)},
      {"cord_per_button_turn_m", by_buttons(c) ? Json(report.cord_per_turn) : Json(nullptr)}};
  add_strings(report, json);
  if (report.line)
    json["glue_line_at_end_of_heat"] = warmth_of(*report.line);
  Json columns = Json::array();
  for (const PlanColumn &p : report.columns)
    columns.push_back(column(report, p));
  json["columns"] = columns;
  if (!report.columns.empty())
    json["main_column"] = report.columns.size() / 2;
  add_clocks(report, json);
  add_job(report, json);
  add_what_if(report, json);
  add_bench(report, json);
  add_stages(report, json);
  add_curves(report, json);
  Json lines;
  for (const auto &[name, text] : record_lines(record))
    lines[name] = text;
  lines["case text"] = record.case_text;
  json["record"] = lines;
  check_finite(json);
  return json.dump(2) + "\n";
}
} // namespace overbend::solver
