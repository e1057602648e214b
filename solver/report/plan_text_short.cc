// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_text_parts.h"

#include "cases/units.h"
#include "solver/report/plan_steps.h"
#include "solver/words/heat_words.h"
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
      const auto &take_up = step_at_start(p.history, end.phase).take_up;
      text += "Cold, from just taut: bass " + turns(take_up[0] / report.cord_per_turn) +
              ", treble " + turns(take_up[1] / report.cord_per_turn) + " button turns (" +
              both_lengths(take_up[0]) + " and " + both_lengths(take_up[1]) + "). ";
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

void in_short(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  const ClampSetting s = at_bench(c, p.setting, p.diagnosis.as_built);
  paragraph(out, "Clamp it to " + bow_in_words(s.bow) + " at fret " +
                     std::to_string(c.found.bow_fret) + " on the centre line, twist " +
                     twist_in_words(s.twist) + ". Strung, " + cases::clock(c.target.after_release) +
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
