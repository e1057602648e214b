// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_text_parts.h"

#include "cases/units.h"
#include "solver/history/take_up_change.h"
#include "solver/report/plan_steps.h"
#include "solver/words/heat_words.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>

namespace overbend::solver::text
{
namespace
{
using cases::both_lengths;
using cases::both_temperatures;

std::string take_up_in_short(const PlanReport &report, const PlanColumn &p, const PhaseEnd &end)
{
  const auto change = take_up_change(report.the_case, p.history, end);
  const auto names = pull_names(report.the_case);
  std::string text;
  for (std::size_t k = 0; k < names.size(); ++k)
    text += (k > 0 ? ", " : "") + names[k] + " " +
            (change[k] ? turns(*change[k] / report.cord_per_turn) + " button turns (" +
                             both_lengths(*change[k]) + ")"
                       : "slack");
  return text;
}

// The cold take-up, the hot re-reading, temperatures and the release, in a few lines.
std::string clamp_in_short(const PlanReport &report, const PlanColumn &p)
{
  const cases::Case &c = report.the_case;
  std::string text;
  double hottest_probe = 0;
  for (const PhaseEnd &end : p.history.phases) {
    const cases::Phase &phase = c.phases[end.phase];
    const bool clamped = end.phase > 0 && c.phases[end.phase - 1].cords;
    const double start = end.time - phase.duration;
    if (phase.pull.kind == cases::Pull::Kind::to_reading && !clamped) {
      text += "Cold, from just taut: " + take_up_in_short(report, p, end) + ". ";
    } else if (phase.pull.kind == cases::Pull::Kind::to_reading)
      text += "Read it hot at " + when(c, start) +
              " and set the overbend, from there: " + take_up_in_short(report, p, end) + ". ";
    if (end.block_below)
      text += "Stop block " + both_lengths(*end.block_below) +
              " below where the headstock rests: its height decides the bow. ";
    if (phase.heater && phase.cords && 2 * end.phase + 1 < report.heat.size())
      hottest_probe = std::max(hottest_probe, report.heat[2 * end.phase + 1].probe);
    if (phase.heater && phase.cords && (!clamped || !c.phases[end.phase - 1].heater))
      text += heat_in_short(c, phase) + " from " + when(c, start);
    if (!phase.heater && clamped && c.phases[end.phase - 1].heater)
      text += "Heat off at " + when(c, start);
    if (!text.empty() && text.back() != ' ')
      text += ". ";
  }
  if (hottest_probe > 0)
    text += "The probe (" + probe_place_in_words(c) + ") comes to " +
            both_temperatures(hottest_probe) + ". ";
  return text + "Let go at " + clock_face(time_of_release(c) - zero_of_clock(c)) + ".";
}

std::string heat_chosen_in_short(const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const HeatChoice &h = report.job->heat;
  const char *const decided = h.decided_by == HeatStop::line            ? "the glue line"
                              : h.decided_by == HeatStop::board_surface ? "the board's surface"
                              : h.decided_by == HeatStop::fret_tops     ? "the tops of the frets"
                              : h.decided_by == HeatStop::back_under_cradle
                                  ? "the back under the cradle"
                                  : "the case";
  std::string text = "Hold the bar at " + both_temperatures(h.set_point) + " (" + decided +
                     " decides), stop at " + both_temperatures(h.set_point + h.overshoot) +
                     "; the line then has " + both_temperatures(h.at_set_point.line) + " at most. ";
  if (c.schedule.wrap)
    text += "Wrap back, sides and headstock in dry cloth, not the bar or the iron. ";
  else
    text +=
        std::string("Do not wrap the neck") +
        (h.wrap == WrapReason::back_would_print ? ": the warm back would print under the cradle. "
                                                : ": wrapped, this plan would over-correct. ");
  const auto percent = [](double share) { return fixed(100 * share, 0) + " %"; };
  return text + "By the closed form the line keeps " + percent(h.kept) +
         " of the clamped way; one degree more would keep " + percent(h.kept_with_a_degree) +
         ", one hour more " + percent(h.kept_with_an_hour) + ".";
}

// From a slow to a fast line, on the centre line.
std::string range(const BySpeed &lines)
{
  return signed_length(lines[0].bow) + " with a slow line, " + signed_length(lines[2].bow) +
         " with a fast one";
}

std::string to_reading(const PlanReport &report, const ClampSetting &setting)
{
  const ClampSetting at = at_bench(report.the_case, setting, report.job->diagnosis.as_built);
  return "to " + bow_in_words(at.bow) + ", twist " + twist_in_words(at.twist);
}

// Where the pulls of a pass go: cold only straight, and to the overbend when hot; all of it cold
// where no hot pull follows.
std::string pulls_of_pass(const PlanReport &report, std::size_t number)
{
  const PassPlan &pass = report.job->passes[number];
  bool cold_first = false, hot = false;
  for (const cases::Phase &phase : report.the_case.phases)
    if (phase.pass == int(number) + 1 && phase.pull.kind == cases::Pull::Kind::to_reading) {
      cold_first = cold_first || !phase.pull.decides;
      hot = hot || (phase.pull.decides && phase.heater);
    }
  const std::string overbend = to_reading(report, pass.overbend);
  return (cold_first ? "clamp it cold " + to_reading(report, pass.cold) + "; " : "") +
         (hot ? "hot, when the line is soft, " : "clamp it cold ") + overbend;
}

std::string pass_in_short(const PlanReport &report, std::size_t number)
{
  const cases::Case &c = report.the_case;
  const PassPlan &pass = report.job->passes[number];
  std::string text =
      report.job->passes.size() > 1 ? "Pass " + std::to_string(number + 1) + ": " : "";
  text += pulls_of_pass(report, number) + ", at fret " + std::to_string(c.found.bow_fret) +
          " on the centre line. Released and rested it should read " +
          bow_in_words(pass.released[1].bow) + " (" + range(pass.released) + "); strung, " +
          bow_in_words(pass.strung[1].bow) + " (" + range(pass.strung) + "), twist " +
          twist_in_words(pass.strung[1].twist) + ".";
  if (pass.limit == Limit::fast_line)
    text += " It goes no further in one pass because a line that turns out fast would end "
            "back-bowed, strung, which no rod here mends.";
  return capital(text);
}

void passes_in_short(std::ostringstream &out, const PlanReport &report)
{
  const Job &job = *report.job;
  for (std::size_t k = 0; k < job.passes.size(); ++k)
    paragraph(out, pass_in_short(report, k));
  if (job.passes.size() > 1)
    paragraph(out, "Two passes. Read it after the first, enter what you read, and plan again: the "
                   "second pass hangs on how fast this glue line is, and the first one tells. "
                   "Never a third.");
}
} // namespace

void in_short(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  if (report.job) {
    paragraph(out, heat_chosen_in_short(report));
    passes_in_short(out, report);
  }
  paragraph(out, "Strung, " + cases::clock(c.target.after_release) +
                     " after release, it should read " + bow_in_words(p.reached.bow) + ", twist " +
                     twist_in_words(p.reached.twist) + " (wanted: " + bow_in_words(p.wanted.bow) +
                     ", " + twist_in_words(p.wanted.twist) + "). These figures hold for that day.");
  paragraph(out, clamp_in_short(report, p));
}
} // namespace overbend::solver::text
