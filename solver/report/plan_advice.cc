// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_advice.h"

#include "cases/text/units.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
using cases::both_lengths;

constexpr double over_the_figure = 3; // K, from the trade's card [E]

// What a bench can tell (trade 1.3: straightedge and sticks).
constexpr double reading_error = 0.03e-3, twist_error = 0.1 * 3.14159265358979323846 / 180;

// The three lines about the middle one; only the middle one where the others were not run.
const BySpeed *lines_of(const PlanReport &report, int pass, bool strung)
{
  if (!report.job || report.job->passes.empty() || !report.job->line_moves)
    return nullptr;
  const auto &passes = report.job->passes;
  const PassPlan &one = passes[std::min(std::size_t(pass), passes.size()) - 1];
  return strung ? &one.strung : &one.released;
}

// "strung, 7 days after release"
std::string strung_at_date(const cases::Case &c)
{
  return "strung, " + cases::clock(c.target.after_release) + " after release";
}

Expected expected(const PlanReport &report, Occasion occasion, const std::string &name,
                  const PhaseEnd &end, bool at_start)
{
  const cases::Phase &phase = report.the_case.phases.at(end.phase);
  Expected e;
  e.occasion = occasion;
  e.name = name;
  e.phase = end.phase;
  e.at_start = at_start;
  e.reading = e.low = e.high =
      at_bench(report.the_case, at_start ? end.reading_at_start : end.reading,
               report.main_column().diagnosis.as_built);
  if (const BySpeed *lines = lines_of(report, phase.pass, phase.strings))
    for (const Reading &line : *lines)
      for (double Reading::*what :
           {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble, &Reading::twist}) {
        const double moved = e.reading.*what + line.*what - (*lines)[1].*what;
        e.low.*what = std::min(e.low.*what, moved);
        e.high.*what = std::max(e.high.*what, moved);
      }
  for (double Reading::*what : {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble}) {
    e.low.*what -= reading_error;
    e.high.*what += reading_error;
  }
  e.low.twist -= twist_error;
  e.high.twist += twist_error;
  return e;
}
} // namespace

const char *word(Occasion occasion)
{
  switch (occasion) {
  case Occasion::released:
    return "released";
  case Occasion::before_second_pass:
    return "before_second_pass";
  case Occasion::before_strings:
    return "before_strings";
  case Occasion::strung:
    return "strung";
  case Occasion::at_date:
    break;
  }
  return "at_date";
}

std::vector<Expected> expected_readings(const PlanReport &report)
{
  std::vector<Expected> all;
  if (report.columns.empty())
    return all;
  const cases::Case &c = report.the_case;
  const auto &phases = report.main_column().history.phases;
  const bool several = !phases.empty() && c.phases[phases.back().phase].pass > 1;
  for (std::size_t i = 1; i < phases.size(); ++i) {
    const cases::Phase &phase = c.phases[phases[i].phase], &before = c.phases[phases[i - 1].phase];
    const std::string which = several ? ", pass " + std::to_string(before.pass) : "";
    if (before.cords && !phase.cords)
      all.push_back(
          expected(report, Occasion::released, "right after release" + which, phases[i], true));
    if (!all.empty() && phase.cords && !before.cords)
      all.push_back(expected(report, Occasion::before_second_pass, "before the second pass",
                             phases[i - 1], false));
    if (!all.empty() && phase.strings && !before.strings) {
      all.push_back(expected(report, Occasion::before_strings, "just before the strings",
                             phases[i - 1], false));
      all.push_back(expected(report, Occasion::strung, "strung, right after", phases[i], true));
    }
  }
  const auto at_date = std::find_if(phases.begin(), phases.end(), [&](const PhaseEnd &end) {
    return end.phase == phase_at_date(c.phases);
  });
  if (!all.empty() && at_date != phases.end() && c.phases[at_date->phase].strings)
    all.push_back(expected(report, Occasion::at_date, strung_at_date(c), *at_date, false));
  return all;
}

Tolerance tolerance(const PlanReport &report)
{
  Tolerance t;
  const std::vector<Expected> all = expected_readings(report);
  t.source = "from a slow to a fast line, and what a bench can read";
  t.bow = all.empty() ? reading_error : (all.back().high.bow - all.back().low.bow) / 2;
  t.twist = all.empty() ? twist_error : (all.back().high.twist - all.back().low.twist) / 2;
  return t;
}

double second_pass_guide(const PlanColumn &column)
{
  return 1 / std::max(0.05, std::abs(column.sensitivity.bow_by_bow));
}

StopTemperatures stop_temperatures(const PlanReport &report, const HeatLimits &limits)
{
  const cases::Case &c = report.the_case;
  double bar = 0, probe = 0;
  for (std::size_t i = 0; i < c.phases.size(); ++i)
    if (c.phases[i].heater) {
      bar = std::max(bar, c.phases[i].bar_temperature);
      for (const std::size_t at : {2 * i, 2 * i + 1})
        if (at < report.heat.size()) {
          probe = std::max(probe, report.heat[at].probe);
          if (c.heater.source == cases::HeatSource::parked) // holds itself: as simulated
            bar = std::max(bar, report.heat[at].bar.value_or(0));
        }
    }
  StopTemperatures stop;
  if (!(bar > 0))
    return stop;
  // What the plan allows the bar to overshoot by; limits are told in whole degrees, rounded down.
  const double over = report.job ? report.job->heat.overshoot : over_the_figure;
  const auto whole = [](double kelvin) { return 273.15 + std::floor(kelvin - 273.15 + 1e-6); };
  stop.bar = whole(bar + over);
  stop.because = limits.glue_line <= limits.surface ? limits.glue_reason : limits.surface_reason;
  const double room = c.room.temperature;
  if (probe > 0)
    stop.probe = whole(room + (probe - room) * (bar + over - room) / (bar - room));
  return stop;
}

std::vector<Stage> stages(const cases::Case &c)
{
  std::vector<Stage> all;
  bool hot = false, clamped = false, strung = false;
  for (unsigned i = 0; i < c.phases.size(); ++i) {
    const cases::Phase &phase = c.phases[i];
    const bool cords_before = i > 0 && c.phases[i - 1].cords;
    const std::string which = phase.pass > 1 ? ", pass " + std::to_string(phase.pass) : "";
    const bool last_hot = phase.heater && (i + 1 == c.phases.size() || !c.phases[i + 1].heater);
    if (phase.cords && !cords_before) {
      all.push_back({"in the clamp, cold" + which, i, true});
      hot = false;
    }
    clamped = clamped || phase.cords;
    if (phase.cords && phase.heater && phase.pull.kind != cases::Pull::Kind::none && !hot) {
      hot = true;
      all.push_back({"in the clamp, hot, set again" + which, i, true});
    }
    if (last_hot && phase.cords)
      all.push_back({"end of the heat" + which, i, false});
    if (cords_before && !phase.cords)
      all.push_back({"released" + which, i, true});
    if (clamped && !phase.cords && phase.strings && !strung) {
      strung = true;
      all.push_back({"strung", i, true});
    }
  }
  if (strung)
    all.push_back({strung_at_date(c), phase_at_date(c.phases), false});
  return all;
}
} // namespace overbend::solver
