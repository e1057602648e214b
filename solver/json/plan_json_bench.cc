// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/strips.h"
#include "cases/declare/declarations.h"
#include "mesh/neck_profile.h"
#include "solver/bench/device.h"
#include "solver/json/plan_json_parts.h"
#include "solver/report/pass_clock.h"
#include "solver/report/plan_advice.h"
#include "solver/report/plan_months.h"
#include "solver/report/second_reading_words.h"
#include "solver/report/step_words.h"
#include "solver/text/plan_steps.h"
#include "solver/words/places.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
template <typename Choice>
std::string word_of(const char *section, const char *key, Choice value)
{
  return cases::find_declaration(section, key)->words.at(std::size_t(value));
}

Json instrument(const cases::Case &c)
{
  Json frets = Json::array();
  for (int fret = 0; fret <= c.neck.frets; ++fret)
    frets.push_back(cases::fret_position(c.neck.scale_length, fret));
  return {{"preset", c.preset},
          {"scale_length_m", c.neck.scale_length},
          {"join_fret", c.neck.join_fret},
          {"nut_width_m", c.neck.nut_width},
          {"fret_x_m", frets},
          {"shaft_wood", cases::shaft_in_words(c.neck)},
          {"board_wood", c.neck.board.wood},
          {"board_glue", c.board_glue.kind.value_or("unknown")},
          {"finish", word_of("finish", "kind", c.finish)},
          {"binding", word_of("finish", "binding", c.binding)},
          {"rod", word_of("rod", "kind", c.neck.rod.kind)},
          {"headstock", word_of("headstock", "kind", c.neck.headstock.kind)},
          {"strings_to_come", c.strings.set}};
}

// The neck seen from the side, straight as built: lower part and board.
Json side_view(const cases::Case &c)
{
  const mesh::NeckProfile profile(c.neck);
  constexpr int parts = 80;
  Json lower = Json::array();
  const auto x_at = [&](int i) {
    return profile.tip + (profile.neck_end - profile.tip) * i / parts;
  };
  for (int i = 0; i <= parts; ++i)
    lower.push_back({x_at(i), profile.top(x_at(i))});
  for (int i = parts; i >= 0; --i)
    lower.push_back({x_at(i), profile.top(x_at(i)) - profile.depth(x_at(i))});
  const double t = c.neck.board_thickness;
  return {{"lower_part_xz_m", lower},
          {"board_xz_m", {{0., 0.}, {profile.board_end, 0.}, {profile.board_end, t}, {0., t}}},
          {"body_join_m", profile.body_join},
          {"depth_at_cradle_m", profile.depth(c.bench.cradle_x)}};
}

Json set_up(const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const cases::Heater &h = c.heater;
  Json places = Json::array();
  for (const DevicePull &pull : device_pulls(c, materials::tables()))
    for (const Vec3 &p : pull.at)
      places.push_back({{"x_m", p[0]}, {"y_m", p[1]}, {"z_m", p[2]}});
  bool nut = true, block = false, wrapped = false;
  for (const cases::Phase &phase : c.phases)
    if (phase.cords) {
      nut = nut && phase.nut;
      block = block || phase.block;
      wrapped = wrapped || phase.air.wrapped;
    }
  const auto below = block_below_rest(report.main_column().history);
  return {{"cradle",
           {{"x_m", c.bench.cradle_x},
            {"width_m", c.bench.cradle_width},
            {"near", near_fret(c, c.bench.cradle_x)}}},
          {"body",
           {{"may_tip", c.bench.hold == cases::BodyHold::pads},
            {"pads_x_m",
             cases::fret_position(c.neck.scale_length, c.neck.join_fret) + c.bench.pad_distance}}},
          {"cords",
           {{"posts", places},
            {"device", word_of("bench", "device", 1 + int(c.bench.device))},
            {"stiffness_N_per_m", c.bench.cord_stiffness},
            {"diameter_m", c.bench.cord_diameter}}},
          {"stop_block", block},
          {"stop_block_below_rest_m", below ? Json(*below) : Json(nullptr)},
          {"nut_in_its_slot", nut},
          {"back_wrapped", wrapped},
          {"foil_under_wrap", wrapped && c.schedule.wrap_foil},
          {"bar",
           {{"from_m", h.from},
            {"to_m", h.to},
            {"width_m", h.width},
            {"thickness_m", h.thickness},
            {"sensor_x_m", h.bar_sensor},
            {"sensor_near", near_fret(c, h.bar_sensor)},
            {"iron_from_m", h.iron_from},
            {"iron_to_m", h.iron_to}}},
          {"probe",
           {{"x_m", c.probe.x},
            {"z_m", c.probe.height},
            {"near", near_fret(c, c.probe.x)},
            {"place", probe_place_in_words(c)}}}};
}

Json expected(const PlanReport &report)
{
  Json all = Json::array();
  const auto &phases = report.main_column().history.phases;
  for (const Expected &e : expected_readings(report)) {
    const PhaseEnd &end = phases.at(e.phase);
    const cases::Phase &phase = report.the_case.phases.at(end.phase);
    const double time = e.at_start ? end.time - phase.duration : end.time;
    all.push_back({{"occasion", word(e.occasion)},
                   {"name", e.name},
                   {"phase", phase.name},
                   {"time_s", time},
                   {"after_release_s", pass_clock(report.the_case, phase.pass).after_release(time)},
                   {"reading", json_of(e.reading)},
                   {"low", json_of(e.low)},
                   {"high", json_of(e.high)}});
  }
  return all;
}

Json play_moment(const PlayMoment &moment, const char *key)
{
  Json one = {{key, moment.value}, {"after_release_s", moment.after_release}};
  one["month"] = moment.month.empty() ? Json(nullptr) : Json(moment.month);
  return one;
}

Json months_of_play(const PlanReport &report)
{
  Json all = Json::array();
  for (const PlayExtremes &e : extremes_of_play(report))
    all.push_back({{"phase", e.phase},
                   {"least_bow", play_moment(e.least_bow, "bow_centre_m")},
                   {"most_bow", play_moment(e.most_bow, "bow_centre_m")},
                   {"least_twist", play_moment(e.least_twist, "twist_rad")},
                   {"most_twist", play_moment(e.most_twist, "twist_rad")}});
  return all;
}

// What the hot re-reading of the first pass will show, and what it tells; null without one.
Json hot_reading(const PlanReport &report)
{
  const PlanColumn &column = report.main_column();
  for (const PhaseEnd &end : column.history.phases) {
    const cases::Phase &phase = report.the_case.phases.at(end.phase);
    const bool clamped = end.phase > 0 && report.the_case.phases[end.phase - 1].cords;
    if (clamped && phase.heater && phase.pull.kind == cases::Pull::Kind::to_reading)
      return {{"run_on", run_on_in_words(report, column, end)},
              {"tells", hot_reading_tells(report, end)}};
  }
  return nullptr;
}

// What is done at the second hot reading, and what comes of it; null without one.
Json second_hot_reading(const PlanReport &report)
{
  if (pass_read_twice(report) == nullptr)
    return nullptr;
  return {{"how", second_reading_in_words(report)}, {"ends", second_reading_ends(report)}};
}

Json stops(const PlanReport &report)
{
  const HeatLimits limits = heat_limits(report.the_case, materials::tables());
  Json all = {{"surface_limit_K", limits.surface},
              {"surface_limit_because", limits.surface_reason},
              {"glue_line_limit_K", limits.glue_line},
              {"glue_line_limit_because", limits.glue_reason},
              {"signs", stop_signs(report.the_case)}};
  if (report.columns.empty())
    return all;
  const StopTemperatures stop = stop_temperatures(report, limits);
  if (stop.bar > 0) {
    all["bar_never_above_K"] = stop.bar;
    all["bar_never_above_because"] = stop.because;
  }
  if (stop.probe > 0)
    all["probe_never_above_K"] = stop.probe;
  return all;
}
} // namespace

void add_bench(const PlanReport &report, Json &plan)
{
  const cases::Case &c = report.the_case;
  plan["instrument"] = instrument(c);
  plan["side_view"] = side_view(c);
  plan["stops"] = stops(report);
  plan["card_cautions"] = card_cautions(c);
  if (report.columns.empty())
    return; // a refusal shows no set-up
  plan["set_up"] = set_up(report);
  plan["hot_reading"] = hot_reading(report);
  plan["second_hot_reading"] = second_hot_reading(report);
  plan["frets_to_read"] = reading_frets(c);
  const Unknown unknown = unknown_that_matters_most(report);
  plan["unknown_that_matters_most"] = {
      {"what", unknown.what}, {"effect", unknown.effect}, {"how_to_tell", unknown.how_to_tell}};
  const Tolerance t = tolerance(report);
  plan["tolerance"] = {{"bow_m", t.bow}, {"twist_rad", t.twist}, {"source", t.source}};
  plan["expected"] = expected(report);
  plan["months_of_play"] = months_of_play(report);
  plan["second_pass"] = {
      {"clamp_further_per_reading_too_far_forward", second_pass_guide(report.main_column())},
      {"guide_for_reading_m", 0.1e-3},
      {"guide_clamp_further_m", 0.1e-3 * second_pass_guide(report.main_column())}};
}
} // namespace overbend::solver
