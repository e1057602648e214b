// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"

#include <stdexcept>

// A column: diagnosis, use of strength, settings, counts.
namespace overbend::solver
{
namespace
{
Json diagnosis(const Diagnosis &d)
{
  return {{"found", json_of(d.found)},
          {"lift_of_found_strings_m", d.lift},
          {"lift_while_line_slips_m", d.slipped_lift},
          {"bonded_share_of_bow", d.bonded_share},
          {"bonded_share_of_twist", d.bonded_twist_share},
          {"ceiling_of_heat_and_strings_m", d.ceiling},
          {"rod_bow_m", d.rod_bow},
          {"slip_bow_m", d.slip_bow},
          {"wood_bow_m", d.wood_bow},
          {"wood_share", d.wood_share()},
          {"slip_twist_rad", d.slip_twist},
          {"wood_twist_rad", d.wood_twist},
          {"severity_of_cause", d.severity},
          {"as_built", json_of(d.as_built)},
          {"remarks", d.remarks}};
}

Json peaks(const PlanReport &report, const Peaks &p)
{
  Json use = Json::array();
  for (const auto &[place, peak] : p.use)
    use.push_back({{"region", name(place)},
                   {"share_of_strength", peak.value},
                   {"mode", peak.mode},
                   {"glue_shear_Pa", peak.shear > 0 ? Json(peak.shear) : Json(nullptr)},
                   {"x_m", peak.place[0]},
                   {"y_m", peak.place[1]},
                   {"z_m", peak.place[2]},
                   {"time_s", peak.time},
                   {"held_s", peak.held},
                   {"line_soft_for_s", peak.hot_for},
                   {"phase", report.the_case.phases.at(peak.phase).name}});
  Json lines = Json::array();
  for (const LineEnds &line : p.line)
    lines.push_back({{"slip_nut_end_m", line.slip_nut_end},
                     {"slip_body_end_m", line.slip_body_end},
                     {"largest_shear_over_10_mm_Pa", line.shear},
                     {"largest_shear_x_m", line.shear_x}});
  return {{"use_of_strength", use},
          {"hottest_glue_K", p.hottest_glue},
          {"hottest_board_top_K", p.hottest_board_top},
          {"glue_lines_at_end_board_scarf_tongue", lines},
          {"strengths_without_source", p.missing}};
}
} // namespace

const char *limit_word(Limit limit)
{
  switch (limit) {
  case Limit::none:
    return "none";
  case Limit::cord_pull:
    return "cord pull";
  case Limit::tuner_pull:
    return "tuner pull";
  case Limit::strength:
    return "strength";
  case Limit::overbend:
    return "overbend";
  case Limit::twist_out_of_reach:
    return "twist out of reach";
  case Limit::line_does_not_move:
    return "line does not move";
  case Limit::fast_line:
    return "fast line";
  }
  throw std::logic_error("a limit without a name");
}

namespace
{
const char *word(materials::LineSpeed speed)
{
  return speed == materials::LineSpeed::slow   ? "slow"
         : speed == materials::LineSpeed::fast ? "fast"
                                               : "middle";
}

Json counts(const PlanColumn &column)
{
  const SolverCounts &n = column.counts;
  return {
      {"full_runs", column.full_runs},      {"unit_runs", column.unit_runs}, {"steps", n.steps},
      {"factorisations", n.factorisations}, {"iterations", n.iterations},    {"solves", n.solves}};
}

Json setting(const PlanReport &report, const ClampSetting &s, const Reading &as_built)
{
  const ClampSetting read = at_bench(report.the_case, s, as_built);
  return {{"bow_centre_m", read.bow}, {"twist_rad", read.twist}};
}
} // namespace

Json column(const PlanReport &report, const PlanColumn &p)
{
  Json phases = Json::array();
  for (const PhaseEnd &end : p.history.phases)
    phases.push_back(phase(report, p, end));
  const Sensitivity &s = p.sensitivity;
  return {{"line_speed", word(p.speed)},
          {"on_target", p.on_target},
          {"limit", limit_word(p.limit)},
          {"clamp_to", setting(report, p.setting, p.diagnosis.as_built)},
          {"first_guess", setting(report, p.first_guess, p.diagnosis.as_built)},
          {"wanted", json_of(p.wanted)},
          {"reached", json_of(p.reached)},
          {"sensitivity",
           {{"bow_by_bow", s.bow_by_bow},
            {"bow_by_twist_m_per_rad", s.bow_by_twist},
            {"twist_by_bow_rad_per_m", s.twist_by_bow},
            {"twist_by_twist", s.twist_by_twist}}},
          {"units_against_full_run",
           {{"bow_m", p.prediction_error_bow}, {"twist_rad", p.prediction_error_twist}}},
          {"diagnosis", diagnosis(p.diagnosis)},
          {"peaks", peaks(report, p.peaks)},
          {"phases", phases},
          {"counts", counts(p)},
          {"notes", p.history.notes}};
}
} // namespace overbend::solver
