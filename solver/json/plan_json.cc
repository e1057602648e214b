// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json.h"

#include "solver/history/take_up_change.h"
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
Json reading(const Reading &r)
{
  return json_of(r);
}

Json sides(const std::array<double, 2> &values)
{
  return bass_and_treble(values);
}

Json forces(const BenchForces &f)
{
  return {{"cords_N", sides(f.cord)}, {"cradle_N", f.cradle}, {"stop_block_N", f.block},
          {"rod_N", f.rod},           {"nut_N", f.nut},       {"body_tip_rad", f.tip}};
}

Json shape(const PlanReport &report, const BoardShape &s, const Reading &as_built)
{
  Json all = Json::array();
  const cases::Case &c = report.the_case;
  for (int fret = c.found.rest_fret_a; fret <= c.found.rest_fret_b; ++fret)
    all.push_back({{"fret", fret},
                   {"x_m", s.centre.x[std::size_t(fret)]},
                   {"bow_bass_m", bow_at_bench(c, s, as_built, 0, fret)},
                   {"bow_centre_m", bow_at_bench(c, s, as_built, 1, fret)},
                   {"bow_treble_m", bow_at_bench(c, s, as_built, 2, fret)}});
  return all;
}

Json rocking(const PlanReport &report, const BoardShape &s, const Reading &as_built)
{
  Json all;
  const char *const names[3] = {"bass", "centre", "treble"};
  for (unsigned line = 0; line < 3; ++line) {
    const Rocking r = rocking_at_bench(report.the_case, s, as_built, line);
    all[names[line]] = {{"end_gap_m", r.gap}, {"hump_fret", r.fret}};
  }
  return all;
}

Json warmth(const HeatReading &r)
{
  Json one = {{"probe_K", r.probe}};
  one["bar_K"] = r.bar ? Json(*r.bar) : Json(nullptr);
  return one;
}

Json phase(const PlanReport &report, const PlanColumn &column, const PhaseEnd &end)
{
  const cases::Phase &p = report.the_case.phases.at(end.phase);
  const Reading &as_built = column.diagnosis.as_built;
  const StepRecord &first = step_at_start(column.history, end.phase);
  // From where the cords stood: just taut, or as the phase before left them.
  const auto taken_up = take_up_change(report.the_case, column.history, end);
  std::array<double, 2> change{}, turns{};
  for (unsigned side = 0; side < 2; ++side) {
    change[side] = taken_up[side].value_or(0);
    turns[side] = report.cord_per_turn > 0 ? change[side] / report.cord_per_turn : 0;
  }
  const auto heat = [&](std::size_t which) {
    const std::size_t at = 2 * end.phase + which;
    return at < report.heat.size() ? warmth(report.heat[at]) : Json(nullptr);
  };
  const cases::Heater &heater = report.the_case.heater;
  const bool by_probe = p.heater && heater.held_by == cases::HeldBy::probe;
  const bool by_bar = p.heater && !by_probe && heater.source != cases::HeatSource::parked;
  const PassClock clock = pass_clock(report.the_case, p.pass);
  const double start = end.time - p.duration;
  return {{"name", p.name},
          {"start_s", start},
          {"start_on_clock_s", clock.on_clock(start)},
          {"start_after_release_s", clock.after_release(start)},
          {"end_s", end.time},
          {"heater_on", p.heater},
          {"bar_temperature_to_hold_K", by_bar ? Json(p.bar_temperature) : Json(nullptr)},
          {"probe_to_hold_K", by_probe ? Json(report.the_case.probe.hold_at) : Json(nullptr)},
          {"cords_on", p.cords},
          {"pulls_to_a_reading", p.pull.kind == cases::Pull::Kind::to_reading},
          {"pull_decides", p.pull.kind == cases::Pull::Kind::to_reading && p.pull.decides},
          {"pass", p.pass},
          {"strings_on", p.strings},
          {"pull_reached", end.pull_reached},
          {"at_start",
           {{"reading", reading(at_bench(report.the_case, end.reading_at_start, as_built))},
            {"take_up_m", sides(first.take_up)},
            {"take_up_change_m", sides(change)},
            {"turns_change", sides(turns)},
            {"slack", {{"bass", first.slack[0]}, {"treble", first.slack[1]}}},
            {"forces", forces(first.forces)},
            {"heat", heat(0)},
            {"bow_by_fret", shape(report, end.shape_at_start, as_built)},
            {"rocking_edge", rocking(report, end.shape_at_start, as_built)}}},
          {"at_end",
           {{"reading", reading(at_bench(report.the_case, end.reading, as_built))},
            {"take_up_m", sides(end.take_up)},
            {"heat", heat(1)},
            {"bow_by_fret", shape(report, end.shape, as_built)},
            {"rocking_edge", rocking(report, end.shape, as_built)}}},
          {"largest_cords_N", sides(end.largest_cord)}};
}

Json diagnosis(const Diagnosis &d)
{
  return {{"found", reading(d.found)},
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
          {"as_built", reading(d.as_built)},
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
          {"wanted", reading(p.wanted)},
          {"reached", reading(p.reached)},
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

Json verdict(const Verdict &v)
{
  return {{"kind", in_words(v.kind)},       {"word", word(v.kind)},
          {"refused", v.refused()},         {"reasons", v.reasons},
          {"cautions", v.shown_cautions()}, {"alternatives", v.alternatives}};
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
      {"format_number", 6},
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
  json["stiffness_factor"] =
      report.stiffness_factor ? Json(*report.stiffness_factor) : Json(nullptr);
  if (report.lifts)
    json["strings"] = {{"lift_found_m", report.lifts->found},
                       {"lift_planned_m", report.lifts->planned},
                       {"tension_found_N", report.found_tension},
                       {"tension_planned_N", report.planned_tension}};
  if (report.line)
    json["glue_line_at_end_of_heat"] = {{"nut_end_K", report.line->nut_end},
                                        {"middle_K", report.line->middle},
                                        {"body_end_K", report.line->body_end},
                                        {"nut_end_Pa", report.line->nut_modulus},
                                        {"middle_Pa", report.line->middle_modulus},
                                        {"body_end_Pa", report.line->body_modulus},
                                        {"hot_time_s", report.line->hot_time},
                                        {"humidity_before", report.line->humidity_before},
                                        {"humidity", report.line->humidity},
                                        {"humidity_driest", report.line->driest},
                                        {"softens_before_K", report.line->softens_before},
                                        {"softens_driest_K", report.line->softens_driest}};
  Json columns = Json::array();
  for (const PlanColumn &p : report.columns)
    columns.push_back(column(report, p));
  json["columns"] = columns;
  if (!report.columns.empty())
    json["main_column"] = report.columns.size() / 2;
  add_clocks(report, json);
  add_job(report, json);
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
