// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"

#include "cases/declare/phases.h"
#include "solver/history/take_up_change.h"
#include "solver/report/pass_clock.h"

// A phase: what is on the bench, forces, shape, heat.
namespace overbend::solver
{
namespace
{
Json forces(const BenchForces &f)
{
  return {{"cords_N", bass_and_treble(f.cord)},
          {"cradle_N", f.cradle},
          {"stop_block_N", f.block},
          {"rod_N", f.rod},
          {"nut_N", f.nut},
          {"body_tip_rad", f.tip}};
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
} // namespace

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
          {"reads_a_second_time", cases::second_reading(report.the_case.phases) == end.phase},
          {"pass", p.pass},
          {"strings_on", p.strings},
          {"pull_reached", end.pull_reached},
          {"at_start",
           {{"reading", json_of(at_bench(report.the_case, end.reading_at_start, as_built))},
            {"take_up_m", bass_and_treble(first.take_up)},
            {"take_up_change_m", bass_and_treble(change)},
            {"turns_change", bass_and_treble(turns)},
            {"slack", {{"bass", first.slack[0]}, {"treble", first.slack[1]}}},
            {"forces", forces(first.forces)},
            {"heat", heat(0)},
            {"bow_by_fret", shape(report, end.shape_at_start, as_built)},
            {"rocking_edge", rocking(report, end.shape_at_start, as_built)}}},
          {"at_end",
           {{"reading", json_of(at_bench(report.the_case, end.reading, as_built))},
            {"take_up_m", bass_and_treble(end.take_up)},
            {"heat", heat(1)},
            {"bow_by_fret", shape(report, end.shape, as_built)},
            {"rocking_edge", rocking(report, end.shape, as_built)}}},
          {"largest_cords_N", bass_and_treble(end.largest_cord)}};
}
} // namespace overbend::solver
