// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_advice.h"

#include "cases/text/units.h"
#include "solver/readings/neck_angle.h"
#include "solver/verdict/verdict_need.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
using cases::both_lengths;

constexpr double over_the_figure = 3;  // K, from the trade's card [E]
constexpr double share_in_doubt = 0.2; // of the bow, between slip and wood, cause not known [E]

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

// Closed form of complete slip: clamp reading moves by b rho / (1 - rho) for the wood's share.
Unknown split_of_the_bow(const Diagnosis &d)
{
  const double rho = d.bonded_share;
  const double change = share_in_doubt * std::abs(d.found.bow) * rho / std::max(0.05, 1 - rho);
  return {"How much of the bow is slip of the glue line and how much is in the wood: the cause is "
          "not known and the split is an estimate.",
          "A fifth of the bow more in the wood asks for about " + both_lengths(change) +
              " further past straight.",
          "Warm it free first: half an hour under the bar, no cords, no strings, then read again. "
          "What goes back by itself is slip."};
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

Unknown unknown_that_matters_most(const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  if (!c.board_glue.kind) {
    const std::string effect =
        "Slow and fast lines end up to " + both_lengths(2 * tolerance(report).bow) + " apart.";
    return {"Which glue holds the board.", effect,
            "Warm it free first, and watch the hot re-reading: a line that has hardly moved is "
            "slow, one that has run on is fast."};
  }
  const bool split_matters = !report.columns.empty() && c.warp.cause == cases::Cause::unknown;
  if (split_matters)
    return split_of_the_bow(report.main_column().diagnosis);
  const bool block = std::any_of(c.phases.begin(), c.phases.end(),
                                 [](const cases::Phase &phase) { return phase.block; });
  if (block)
    return {"How fast this glue line gives at its temperature: the least certain number of all.",
            "A slower one keeps less; the block keeps a faster one from running on.",
            "Warm it free first: half an hour under the bar, no cords, no strings, then read "
            "again."};
  return {"How fast this glue line gives at its temperature: the least certain number of all.",
          "A faster line runs on further in the clamp, a slower one keeps less.",
          "The hot re-reading tells: go back to the readings asked for, and note how far it had "
          "run."};
}

std::vector<std::string> card_cautions(const cases::Case &c)
{
  std::vector<std::string> all = {
      "Iron: dry, dabbed on 2 to 3 s every minute or two, or parked on 6 mm (1/4 in) plywood. "
      "Never left "
      "alone.",
      "Glasses on. Stay out of the line of the cords. Extinguisher and metal tray at hand."};
  using cases::Binding;
  using cases::Finish;
  if (c.finish == Finish::nitro_lacquer || c.finish == Finish::shellac)
    all.push_back(
        "This finish burns and prints: suede or cork under it, no solvent or oily rag near.");
  else if (c.finish == Finish::unknown)
    all.push_back("Finish not known: treat it as lacquer that burns and prints under pads.");
  else if (c.finish != Finish::bare && c.finish != Finish::oil)
    all.push_back(
        "Finish: soft pad under the cradle, no vinyl or rubber; look under it at the re-reading.");
  if (c.binding == Binding::unknown)
    all.push_back(
        "Binding not known: camphor smell when rubbed means celluloid. Then no heat at all.");
  else if (c.binding == Binding::plastic)
    all.push_back("Plastic binding: foil and felt over it, the bar off it.");
  if (!frets_in_words(c).empty())
    all.push_back("Frets not level: the readings here are on them as they are. Level or seat them "
                  "first if you can.");
  if (const auto angle = neck_angle(c, materials::tables().limits); angle && angle->wrong)
    all.push_back("Neck angle " + side_in_words(*angle) +
                  ": it stays after this job; a reset is another.");
  if (!c.board_glue.kind)
    all.push_back("Glue not known: warm it free first, and trust the re-reading, not the clock.");
  else if (c.neck.headstock.kind == cases::HeadstockKind::scarf)
    all.push_back("Scarf joint: keep heat and load off it as far as you can.");
  if (c.neck.headstock.kind == cases::HeadstockKind::tilted)
    all.push_back(
        "Headstock of one piece has short grain at the nut: look at it with a lamp first.");
  return all;
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
