// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"

#include "cases/declare/declarations.h"
#include "cases/declare/phases.h"
#include "solver/report/pass_clock.h"
#include "solver/words/device_names.h"
#include "solver/words/pull_names.h"

#include <stdexcept>

namespace overbend::solver
{
namespace
{
const char *word(HeatStop stop)
{
  switch (stop) {
  case HeatStop::line:
    return "glue_line";
  case HeatStop::board_surface:
    return "board_surface";
  case HeatStop::fret_tops:
    return "fret_tops";
  case HeatStop::back_under_cradle:
    return "back_under_cradle";
  case HeatStop::asked_for:
    return "asked_for";
  }
  throw std::logic_error("a stop without a word");
}

const char *word(WrapReason reason)
{
  switch (reason) {
  case WrapReason::asked_for:
    return "asked_for";
  case WrapReason::keeps_the_line_even:
    return "keeps_the_line_even";
  case WrapReason::back_would_print:
    return "back_would_print";
  }
  throw std::logic_error("a reason without a word");
}

Json kelvin_or_null(double value)
{
  return value > 0 ? Json(value) : Json(nullptr);
}

Json places(const HeatPlaces &p)
{
  return {{"glue_line_K", kelvin_or_null(p.line)},
          {"board_surface_K", kelvin_or_null(p.board_surface)},
          {"fret_tops_K", kelvin_or_null(p.fret_tops)},
          {"bar_K", kelvin_or_null(p.bar)},
          {"back_under_cradle_K", kelvin_or_null(p.back_under_cradle)},
          {"scarf_K", kelvin_or_null(p.scarf)}};
}

Json heat(const Job &job)
{
  const HeatChoice &h = job.heat;
  return {{"set_point_K", h.set_point},
          {"overshoot_K", h.overshoot},
          {"decided_by", word(h.decided_by)},
          {"wrapped", job.planned.schedule.wrap},
          {"foil_under_wrap", job.planned.schedule.wrap && job.planned.schedule.wrap_foil},
          {"wrap_because", word(h.wrap)},
          {"hold_s", job.planned.schedule.hold},
          {"at_set_point", places(h.at_set_point)},
          {"with_overshoot", places(h.with_overshoot)},
          {"limits",
           {{"glue_line_K", h.limits.glue_line},
            {"board_surface_K", h.limits.surface},
            {"fret_tops_K", h.limits.fret_tops},
            {"back_under_cradle_K", h.limits.back}}},
          {"kept_share", h.kept},
          {"kept_share_with_a_degree", h.kept_with_a_degree},
          {"kept_share_with_an_hour", h.kept_with_an_hour}};
}

Json by_speed(const BySpeed &lines)
{
  return {{"slow", json_of(lines[0])}, {"middle", json_of(lines[1])}, {"fast", json_of(lines[2])}};
}

Json demand(const Demand &d)
{
  return {{"place", d.place},
          {"when", d.moment == Moment::cold ? "cold" : "hot"},
          {"asked", d.asked},
          {"bears", d.bears},
          {"share", d.share}};
}

// Null where the pass is not read hot a second time.
Json second_reading(const PlanReport &report, const PassPlan &p)
{
  if (!p.second)
    return nullptr;
  const cases::Case &c = report.the_case;
  Json faster = Json::array();
  for (const LetUp &one : p.second->faster) {
    const ClampSetting to = at_bench(c, one.to, report.job->diagnosis.as_built);
    faster.push_back({{"line_place", one.place},
                      {"in_the_clamp", json_of(one.seen)},
                      {"let_up_to", {{"bow_centre_m", to.bow}, {"twist_rad", to.twist}}},
                      {"strung_if_left", json_of(one.left)},
                      {"strung", json_of(one.strung)}});
  }
  const double start = start_of(c, cases::second_reading(c.phases).value());
  return {{"start_on_clock_s", pass_clock(c, 1).on_clock(start)},
          {"slow_in_the_clamp", json_of(p.second->slow)},
          {"middle_in_the_clamp", json_of(p.second->middle)},
          {"faster", faster}};
}

Json pass(const PlanReport &report, const PassPlan &p, std::size_t number)
{
  const Reading &as_built = report.job->diagnosis.as_built;
  const auto setting = [&](const ClampSetting &s) {
    const ClampSetting read = at_bench(report.the_case, s, as_built);
    return Json{{"bow_centre_m", read.bow}, {"twist_rad", read.twist}};
  };
  Json demands = Json::array();
  for (const Demand &d : p.demands)
    demands.push_back(demand(d));
  return {{"pass", number},
          {"cold", setting(p.cold)},
          {"overbend", setting(p.overbend)},
          {"limit", limit_word(p.limit)},
          {"limit_region", p.limit_place ? Json(name(*p.limit_place)) : Json(nullptr)},
          {"kept_share", p.sensitivity.bow_by_bow},
          {"released", by_speed(p.released)},
          {"strung", by_speed(p.strung)},
          {"second_reading", second_reading(report, p)},
          {"demands", demands}};
}
} // namespace

void add_job(const PlanReport &report, Json &plan)
{
  if (!report.job)
    return;
  const Job &job = *report.job;
  Json passes = Json::array(), tried = Json::array();
  for (const PassPlan &p : job.passes)
    passes.push_back(pass(report, p, passes.size() + 1));
  for (const TriedSetUp &t : job.tried)
    tried.push_back({{"device", device_name(t.bench.device)},
                     {"posts", posts_in_words(t.bench)},
                     {"strung", json_of(t.strung)},
                     {"on_target", t.on_target},
                     {"limit", limit_word(t.limit)}});
  Json first_pass = nullptr;
  if (job.first_pass)
    first_pass = {{"read_m", job.first_pass->read},
                  {"line_place", job.first_pass->place},
                  {"line_place_slow", job.first_pass->slow},
                  {"line_place_fast", job.first_pass->fast},
                  {"read_by_slowest_m", job.first_pass->slowest},
                  {"read_by_fastest_m", job.first_pass->fastest}};
  plan["job"] = {{"ends", job.ends},
                 {"line_moves", job.line_moves},
                 {"device", device_name(job.planned.bench.device)},
                 {"posts", posts_in_words(job.planned.bench)},
                 {"pulls", pull_names(job.planned)},
                 {"heat", heat(job)},
                 {"first_pass", first_pass},
                 {"passes", passes},
                 {"tried", tried}};
}
} // namespace overbend::solver
