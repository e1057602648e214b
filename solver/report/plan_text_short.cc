// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_text_parts.h"

#include "cases/units.h"
#include "solver/history/take_up_change.h"
#include "solver/report/plan_steps.h"
#include "solver/words/heat_words.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <functional>

namespace overbend::solver::text
{
namespace
{
using cases::all_forces;
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
      if (end.block_below)
        text += "Stop block " + both_lengths(*end.block_below) +
                " below where the headstock rests: its height decides the bow. ";
    } else if (phase.pull.kind == cases::Pull::Kind::to_reading)
      text += "Read again at " + when(c, start) + " and go back to the same readings. ";
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

// Columns of the three lines: a force in three units and two blanks fit in.
constexpr std::size_t line_width = 30;

void row(std::ostringstream &out, const PlanReport &report, const std::string &name,
         const std::function<std::string(const PlanColumn &)> &cell)
{
  out << "  " << padded(name, 30);
  for (const PlanColumn &p : report.columns)
    out << padded(cell(p), line_width);
  out << "\n";
}
} // namespace

namespace
{
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

std::string pass_in_short(const PlanReport &report, std::size_t number)
{
  const cases::Case &c = report.the_case;
  const PassPlan &pass = report.job->passes[number];
  const Reading &as_built = report.job->diagnosis.as_built;
  const ClampSetting hot = at_bench(c, pass.overbend, as_built),
                     cold = at_bench(c, pass.cold, as_built);
  std::string text =
      report.job->passes.size() > 1 ? "Pass " + std::to_string(number + 1) + ": " : "";
  text += "cold to " + bow_in_words(cold.bow) + ", twist " + twist_in_words(cold.twist) +
          "; hot, when the line is soft, to " + bow_in_words(hot.bow) + ", twist " +
          twist_in_words(hot.twist) + ", at fret " + std::to_string(c.found.bow_fret) +
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

// The same plan for a slow, a middle and a fast line, side by side.
void three_lines(std::ostringstream &out, const PlanReport &report)
{
  if (report.columns.size() < 2)
    return;
  out << "\nTHE GLUE IS NOT KNOWN: THREE LINES\n";
  out << "  " << padded("", 30) << padded("slow line", line_width)
      << padded("middle line", line_width) << "fast line\n";
  const cases::Case &c = report.the_case;
  const auto bow = [&](const PlanColumn &p, const Reading &r) {
    return signed_length(at_bench(c, r, p.diagnosis.as_built).bow);
  };
  const auto moving_row = [&](const std::string &name,
                              const std::function<std::string(const PlanColumn &)> &cell) {
    row(out, report, name,
        [&](const PlanColumn &p) { return p.line_moves() ? cell(p) : std::string("-"); });
  };
  moving_row("clamp to, centre", [&](const PlanColumn &p) {
    return signed_length(at_bench(c, p.setting, p.diagnosis.as_built).bow);
  });
  moving_row("clamp to, twist", [&](const PlanColumn &p) {
    return cases::degrees(at_bench(c, p.setting, p.diagnosis.as_built).twist);
  });
  const auto below = [](const PlanColumn &p) { return block_below_rest(p.history); };
  if (below(report.main_column()))
    moving_row("stop block below rest", [&](const PlanColumn &p) {
      return below(p) ? both_lengths(*below(p)) : std::string("-");
    });
  for (std::size_t i = 0; i < c.phases.size(); ++i)
    moving_row("end of " + c.phases[i].name, [&](const PlanColumn &p) {
      return i < p.history.phases.size() ? bow(p, p.history.phases[i].reading) : "-";
    });
  moving_row("largest cord", [&](const PlanColumn &p) { return all_forces(largest_cord(p)); });
  row(out, report, "reaches the target", [](const PlanColumn &p) {
    return std::string(!p.line_moves() ? "line does not move" : p.on_target ? "yes" : "no");
  });
  paragraph(out, "How to tell which one it is: the hot re-reading. What follows is for the middle "
                 "line.");
}
} // namespace overbend::solver::text
