// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"

#include <stdexcept>

namespace overbend::solver
{
namespace
{
void add_readings(const PlanReport &report, Json &curves)
{
  const PlanColumn &column = report.main_column();
  for (const char *key : {"time_s", "phase", "bow_bass_m", "bow_centre_m", "bow_treble_m",
                          "twist_rad", "cord_bass_N", "cord_treble_N", "cradle_N"})
    curves[key] = Json::array();
  for (const StepRecord &step : column.history.steps) {
    const Reading r = at_bench(report.the_case, step.reading, column.diagnosis.as_built);
    curves["time_s"].push_back(step.time);
    curves["phase"].push_back(step.phase);
    curves["bow_bass_m"].push_back(r.bow_bass);
    curves["bow_centre_m"].push_back(r.bow);
    curves["bow_treble_m"].push_back(r.bow_treble);
    curves["twist_rad"].push_back(r.twist);
    curves["cord_bass_N"].push_back(step.forces.cord[0]);
    curves["cord_treble_N"].push_back(step.forces.cord[1]);
    curves["cradle_N"].push_back(step.forces.cradle);
  }
}

void add_warmth_and_slip(const PlanReport &report, Json &curves)
{
  if (report.curves.empty())
    return;
  if (report.curves.size() != report.main_column().history.steps.size())
    throw std::logic_error("the plan's curves do not have one point a step");
  for (const char *key : {"probe_K", "bar_K", "board_top_K", "glue_line_K", "mid_shaft_K", "back_K",
                          "slip_nut_end_m", "slip_body_end_m"})
    curves[key] = Json::array();
  for (const CurvePoint &p : report.curves) {
    curves["probe_K"].push_back(p.probe);
    curves["bar_K"].push_back(p.bar ? Json(*p.bar) : Json(nullptr));
    curves["board_top_K"].push_back(p.board_top);
    curves["glue_line_K"].push_back(p.glue_line);
    curves["mid_shaft_K"].push_back(p.mid_shaft);
    curves["back_K"].push_back(p.back);
    curves["slip_nut_end_m"].push_back(p.slip_nut_end);
    curves["slip_body_end_m"].push_back(p.slip_body_end);
  }
}
} // namespace

void add_curves(const PlanReport &report, Json &plan)
{
  if (report.columns.empty())
    return;
  Json curves;
  add_readings(report, curves);
  add_warmth_and_slip(report, curves);
  plan["curves"] = curves;
}
} // namespace overbend::solver
