// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text_parts.h"

#include "cases/text/units.h"
#include "solver/report/pass_clock.h"
#include "solver/report/second_reading_words.h"
#include "solver/report/step_words.h"
#include "solver/words/heat_words.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver::text
{
namespace
{
using cases::both_lengths;
using cases::both_temperatures;

// What is done in one phase of a pass; nothing in most.
std::string done_in_short(const PlanReport &report, const PlanColumn &p, const PhaseEnd &end)
{
  const cases::Case &c = report.the_case;
  const cases::Phase bare, &phase = c.phases[end.phase];
  const cases::Phase &before = end.phase > 0 ? c.phases[end.phase - 1] : bare;
  const std::string at = when_it_begins(c, end.phase);
  std::string text;
  if (phase.pull.kind == cases::Pull::Kind::to_reading)
    text += (before.cords ? "Read it hot at " + at + " and set the overbend, from there: "
                          : "Cold, from just taut: ") +
            take_ups_in_words(report, p, end) + ". ";
  if (end.block_below)
    text += "Stop block " + both_lengths(*end.block_below) +
            " below where the headstock rests: its height decides the bow. ";
  if (phase.heater && phase.cords && !(before.cords && before.heater))
    text += heat_in_short(c, phase) + " from " + at + ". ";
  if (!phase.heater && before.cords && before.heater)
    text += "Heat off at " + at + ". ";
  return text;
}

// The cold take-up, the hot re-reading, temperatures and the release of a pass, in a few lines.
std::string clamp_in_short(const PlanReport &report, int pass)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  std::string text;
  double hottest_probe = 0;
  for (const PhaseEnd &end : p.history.phases) {
    const cases::Phase &phase = c.phases[end.phase];
    if (phase.pass != pass)
      continue;
    text += done_in_short(report, p, end);
    if (phase.heater && phase.cords && 2 * end.phase + 1 < report.heat.size())
      hottest_probe = std::max(hottest_probe, report.heat[2 * end.phase + 1].probe);
  }
  if (hottest_probe > 0)
    text += "The probe (" + probe_place_in_words(c) + ") comes to " +
            both_temperatures(hottest_probe) +
            (report.line_heat ? "; the middle of the line beside it then has " +
                                    both_temperatures(report.line_heat->when_probe_shows(
                                        hottest_probe, report.line_heat->middle))
                              : "") +
            ". ";
  return text + "Let go at " + clock_face(pass_clock(c, pass).release_on_clock()) + ".";
}

std::string decided_by(HeatStop stop)
{
  switch (stop) {
  case HeatStop::line:
    return "the glue line";
  case HeatStop::board_surface:
    return "the board's surface";
  case HeatStop::fret_tops:
    return "the tops of the frets";
  case HeatStop::back_under_cradle:
    return "the back under the cradle";
  case HeatStop::asked_for:
    return "the case";
  }
  throw std::logic_error("a stop without words");
}

// What is held at which figure, what decided it, and where to stop.
std::string held_at(const cases::Case &c, const HeatChoice &h)
{
  const std::string bar = both_temperatures(h.set_point);
  if (c.heater.source == cases::HeatSource::parked)
    return "Park the iron with its soleplate at " + both_temperatures(c.heater.iron_temperature);
  if (c.heater.held_by == cases::HeldBy::probe)
    return "Hold the probe at " + both_temperatures(c.probe.hold_at) + ", the bar never above " +
           bar;
  return "Hold the bar at " + bar + " (" + decided_by(h.decided_by) + " decides), stop at " +
         both_temperatures(h.set_point + h.overshoot);
}

std::string heat_chosen_in_short(const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const HeatChoice &h = report.job->heat;
  std::string text = held_at(c, h) + "; the line then has " +
                     both_temperatures(h.at_set_point.line) + " at most. ";
  if (c.schedule.wrap)
    text += wrap_in_words(c) + (c.schedule.wrap_foil ? " The foil keeps the board's ends and edges "
                                                       "from drying and cracking. "
                                                     : " ");
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
          twist_in_words(pass.strung[1].twist) + "." +
          (pass.second ? " A fast line is told by the second hot reading, and let up then." : "");
  if (pass.limit == Limit::fast_line)
    text += std::string(" It stops short of the target because a line that turns out fast would ") +
            (rod_pulls_forward(c) ? "end further back than its rod pulls it forward"
                                  : "end back-bowed, strung, which no rod here mends") +
            ": read it after this pass and plan again from there.";
  return capital(text);
}

// Lines for the case after the first pass.
void first_pass_to_fill_in(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PassPlan &pass = report.job->passes.front();
  const ClampSetting at = at_bench(c, pass.overbend, report.job->diagnosis.as_built);
  const auto line = [&](const std::string &key, const std::string &value,
                        const std::string &remark = "") {
    out << "    " << key << " = \"" << value << "\"" << (remark.empty() ? "" : "   # " + remark)
        << "\n";
  };
  out << "    [first_pass]\n";
  line("overbend", fixed(1e3 * at.bow, 2) + " mm", "what the clamp was set to when hot");
  if (sets_twist(c))
    line("overbend_twist", fixed(at.twist * 180 / 3.14159265358979323846, 2) + " deg");
  if (pass.second)
    out << "    # let_up_to = \"... mm\"   # only if it was let up at the second reading\n";
  line("bow", "... mm", "what you read");
  line("twist", "... deg", "what you read");
  line("bar_temperature", fixed(report.job->heat.set_point - 273.15, 0) + " degC");
  line("hold", fixed(c.schedule.hold / 60, 0) + " min");
  if (c.schedule.wrap && c.schedule.wrap_foil)
    out << "    [schedule]\n    wrap = true\n    wrap_foil = true\n";
}

void second_reading_in_short(std::ostringstream &out, const PlanReport &report)
{
  paragraph(out, "At " + second_reading_time(report) + " read it hot a second time. " +
                     second_reading_in_words(report));
  out << second_reading_rows(report, "    ");
  paragraph(out, second_reading_ends(report));
}

void passes_in_short(std::ostringstream &out, const PlanReport &report)
{
  const int passes = int(report.job->passes.size());
  for (int pass = 1; pass <= passes; ++pass) {
    paragraph(out, pass_in_short(report, std::size_t(pass) - 1));
    paragraph(out, clamp_in_short(report, pass));
    if (report.job->passes[std::size_t(pass) - 1].second)
      second_reading_in_short(out, report);
  }
  if (passes > 1) {
    paragraph(out, "Two passes. The second one hangs on how fast this glue line is, and the first "
                   "one tells: read bow and twist after its rest, strings off, add these lines to "
                   "the case with what was really done and read, and plan again. Never a third.");
    first_pass_to_fill_in(out, report);
  } else if (pass_read_twice(report) != nullptr) {
    paragraph(out, "If it still ends short, after its rest, strings off, add these lines to the "
                   "case with what was really done and read, and plan a second pass.");
    first_pass_to_fill_in(out, report);
  }
}
} // namespace

void in_short(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  paragraph(out, heat_chosen_in_short(report));
  passes_in_short(out, report);
  paragraph(out, "Strung, " + cases::clock(c.target.after_release) +
                     (number_of_passes(c) > 1 ? " after the last release" : " after release") +
                     ", it should read " + bow_in_words(p.reached.bow) + ", twist " +
                     twist_in_words(p.reached.twist) + " (wanted: " + bow_in_words(p.wanted.bow) +
                     ", twist " + twist_in_words(p.wanted.twist) +
                     "). These figures hold for that day.");
}
} // namespace overbend::solver::text
