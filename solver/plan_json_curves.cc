// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan_advice.h"
#include "solver/plan_json_parts.h"
#include "solver/results.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
// Bow and twist at each fret between the rest frets. What is as built counts as a parabola for the
// bow and as a straight line for the twist [E].
Json along_the_board(const PlanReport &report, const BoardShape &s, const Reading &as_built)
{
  const cases::Case &c = report.the_case;
  const auto a = std::size_t(c.found.rest_fret_a), b = std::size_t(c.found.rest_fret_b);
  const auto angle = [&](std::size_t f) {
    return std::atan2(s.treble.z[f] - s.bass.z[f], report.across_by_fret.at(f));
  };
  Json all = Json::array();
  for (std::size_t f = a; f <= b; ++f) {
    const double share = (s.centre.x[b] - s.centre.x[f]) / (s.centre.x[b] - s.centre.x[a]);
    all.push_back({{"fret", f},
                   {"x_m", s.centre.x[f]},
                   {"bow_bass_m", bow_at_bench(c, s, as_built, 0, int(f))},
                   {"bow_centre_m", bow_at_bench(c, s, as_built, 1, int(f))},
                   {"bow_treble_m", bow_at_bench(c, s, as_built, 2, int(f))},
                   {"twist_rad", angle(f) - angle(b) + share * as_built.twist}});
  }
  return all;
}

Json stage_list(const PlanReport &report)
{
  const PlanColumn &column = report.main_column();
  const Reading &as_built = column.diagnosis.as_built;
  Json all = Json::array();
  if (report.found_shape)
    all.push_back({{"name", "as found"},
                   {"phase", as_found},
                   {"moment", "end"},
                   {"time_s", 0.},
                   {"reading", json_of(at_bench(report.found_reading, as_built))},
                   {"by_fret", along_the_board(report, *report.found_shape, as_built)}});
  for (const Stage &stage : stages(report.the_case)) {
    const PhaseEnd &end = column.history.phases.at(stage.phase);
    const cases::Phase &phase = report.the_case.phases.at(stage.phase);
    all.push_back(
        {{"name", stage.name},
         {"phase", phase.name},
         {"moment", stage.at_start ? "start" : "end"},
         {"time_s", stage.at_start ? end.time - phase.duration : end.time},
         {"reading",
          json_of(at_bench(stage.at_start ? end.reading_at_start : end.reading, as_built))},
         {"by_fret",
          along_the_board(report, stage.at_start ? end.shape_at_start : end.shape, as_built)}});
  }
  return all;
}

void add_readings(const PlanReport &report, Json &curves)
{
  const PlanColumn &column = report.main_column();
  for (const char *key : {"time_s", "phase", "bow_bass_m", "bow_centre_m", "bow_treble_m",
                          "twist_rad", "cord_bass_N", "cord_treble_N", "cradle_N"})
    curves[key] = Json::array();
  for (const StepRecord &step : column.history.steps) {
    const Reading r = at_bench(step.reading, column.diagnosis.as_built);
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

void add_stages_and_curves(const PlanReport &report, Json &plan)
{
  if (report.columns.empty())
    return;
  if (!report.across_by_fret.empty())
    plan["stages"] = stage_list(report);
  Json curves;
  add_readings(report, curves);
  add_warmth_and_slip(report, curves);
  plan["curves"] = curves;
}
} // namespace overbend::solver
