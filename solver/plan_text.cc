// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan_text.h"

#include "cases/climate.h"
#include "cases/units.h"
#include "solver/plan_steps.h"
#include "solver/shop_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <sstream>

namespace overbend::solver
{
namespace
{
using cases::all_forces;
using cases::both_lengths;
using cases::both_temperatures;

// What is not worth saying, m and rad.
constexpr double least_bow = 5e-6, least_twist = 1e-4;

std::string upper(std::string text)
{
  for (char &c : text)
    c = char(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

void paragraph(std::ostringstream &out, const std::string &text)
{
  out << folded(text, "  ", "  ");
}

void list(std::ostringstream &out, const std::vector<std::string> &items)
{
  for (const std::string &item : items)
    out << folded(item, "  - ", "    ");
}

void verdict(std::ostringstream &out, const PlanReport &report)
{
  const Verdict &v = report.verdict;
  out << "VERDICT: " << upper(in_words(v.kind)) << "\n";
  list(out, v.reasons);
  if (!v.alternatives.empty()) {
    out << "\n  Instead:\n";
    list(out, v.alternatives);
  }
  if (v.kind == Verdict::do_not && !v.cautions.empty())
    out << "\n  And:\n";
  list(out, v.cautions);
}

void found(std::ostringstream &out, const cases::Case &c)
{
  const cases::Found &f = c.found;
  std::string text = "Found, strings off, straightedge on frets " + std::to_string(f.rest_fret_a) +
                     " and " + std::to_string(f.rest_fret_b) + ", read at fret " +
                     std::to_string(f.bow_fret) + ": bass " + bow_in_words(f.bow_bass) +
                     ", centre " + bow_in_words(f.bow_centre) + ", treble " +
                     bow_in_words(f.bow_treble) + "; twist ";
  if (f.twist) {
    text += twist_in_words(*f.twist);
    if (std::abs(*f.twist) > least_twist)
      text += " (" + both_lengths(std::abs(over_sticks(*f.twist))) + " at 300 mm sticks)";
  } else
    text += "not measured, taken as none";
  paragraph(out, text + ".");
}

void diagnosis(std::ostringstream &out, const PlanReport &report)
{
  const Diagnosis &d = report.main_column().diagnosis;
  const auto part = [](double bow) {
    return std::abs(bow) < least_bow ? "none" : bow_in_words(bow);
  };
  paragraph(out, "Of the bow, " + part(d.slip_bow) +
                     " is slip of the board's glue line (it comes back easily and stays) and " +
                     part(d.wood_bow) + " is in the wood (it comes back hard and relapses): " +
                     fixed(100 * d.wood_share_of_found(), 0) + " % of what was found.");
  if (d.found.bow > 0 && d.found.bow <= d.ceiling)
    paragraph(out, "Heat and these strings alone can explain all of it: up to " +
                       both_lengths(d.ceiling) + ".");
  else
    paragraph(out, "Heat and these strings alone explain at most " + both_lengths(d.ceiling) +
                       " of the " + both_lengths(std::abs(d.found.bow)) + ".");
  if (std::abs(d.slip_twist) + std::abs(d.wood_twist) > least_twist)
    paragraph(out, "Of the twist, " + cases::degrees(std::abs(d.slip_twist)) +
                       " is taken as slip and " + cases::degrees(std::abs(d.wood_twist)) +
                       " as in the wood. Strings and even heat make no twist: its cause is open.");
  const Reading &a = d.as_built;
  if (std::max({std::abs(a.bow_bass), std::abs(a.bow), std::abs(a.bow_treble)}) > least_bow ||
      std::abs(a.twist) > least_twist)
    paragraph(out, "Explained by no history and taken as built: bass " + signed_length(a.bow_bass) +
                       ", centre " + signed_length(a.bow) + ", treble " +
                       signed_length(a.bow_treble) + ", twist " + twist_in_words(a.twist) +
                       ". It is added to every reading below.");
  paragraph(out, "With the line slipping, " + fixed(100 * (1 - d.bonded_share), 0) +
                     " % of a clamped bow and " + fixed(100 * (1 - d.bonded_twist_share), 0) +
                     " % of a clamped twist can stay.");
  for (const std::string &remark : d.remarks)
    paragraph(out, remark);
}

void strings(std::ostringstream &out, const PlanReport &report)
{
  if (!report.lifts)
    return;
  paragraph(out, "Strings (" + report.the_case.strings.set + ", " +
                     all_forces(report.planned_tension) + ") lift this neck forward by " +
                     both_lengths(report.lifts->planned) + ".");
  if (report.stiffness_factor && *report.stiffness_factor > 0)
    paragraph(out, "Strung minus slack says that the neck is " +
                       fixed(*report.stiffness_factor, 2) +
                       " times as stiff as its sizes and woods tell" +
                       (report.columns.empty() ? "." : "; the plan uses that."));
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
      const auto &take_up = step_at_start(p.history, end.phase).take_up;
      text += "Cold, from just taut: bass " + turns(take_up[0] / report.cord_per_turn) +
              ", treble " + turns(take_up[1] / report.cord_per_turn) + " button turns (" +
              both_lengths(take_up[0]) + " and " + both_lengths(take_up[1]) + "). ";
    } else if (phase.pull.kind == cases::Pull::Kind::to_reading)
      text += "Read again at " + when(c, start) + " and go back to the same readings. ";
    if (phase.heater && phase.cords && 2 * end.phase + 1 < report.heat.size())
      hottest_probe = std::max(hottest_probe, report.heat[2 * end.phase + 1].probe);
    if (phase.heater && phase.cords && (!clamped || !c.phases[end.phase - 1].heater))
      text += "Bar at " + both_temperatures(phase.bar_temperature) + " from " + when(c, start);
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

void in_short(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  const Reading &a = p.diagnosis.as_built;
  const ClampSetting s{p.setting.bow + a.bow, p.setting.twist + a.twist};
  paragraph(out, "Clamp it to " + bow_in_words(s.bow) + " at fret " +
                     std::to_string(c.found.bow_fret) + " on the centre line, twist " +
                     twist_in_words(s.twist) + ". Strung, " + cases::clock(c.target.after_release) +
                     " after release, it should read " + bow_in_words(p.reached.bow) + ", twist " +
                     twist_in_words(p.reached.twist) + " (wanted: " + bow_in_words(p.wanted.bow) +
                     ", " + twist_in_words(p.wanted.twist) + "). These figures hold for that day.");
  paragraph(out, clamp_in_short(report, p));
}

std::string padded(const std::string &text, std::size_t width)
{
  return text + std::string(text.size() < width ? width - text.size() : 1, ' ');
}

void row(std::ostringstream &out, const PlanReport &report, const std::string &name,
         const std::function<std::string(const PlanColumn &)> &cell)
{
  out << "  " << padded(name, 30);
  for (const PlanColumn &p : report.columns)
    out << padded(cell(p), 22);
  out << "\n";
}

double largest_cord(const PlanColumn &p)
{
  double largest = 0;
  for (const PhaseEnd &phase : p.history.phases)
    largest = std::max({largest, phase.largest_cord[0], phase.largest_cord[1]});
  return largest;
}

// The same plan for a slow, a middle and a fast line, side by side.
void three_lines(std::ostringstream &out, const PlanReport &report)
{
  if (report.columns.size() < 2)
    return;
  out << "\nTHE GLUE IS NOT KNOWN: THREE LINES\n";
  out << "  " << padded("", 30) << padded("slow line", 22) << padded("middle line", 22)
      << "fast line\n";
  const auto bow = [](const PlanColumn &p, const Reading &r) {
    return signed_length(r.bow + p.diagnosis.as_built.bow);
  };
  row(out, report, "clamp to, centre",
      [&](const PlanColumn &p) { return signed_length(p.setting.bow + p.diagnosis.as_built.bow); });
  row(out, report, "clamp to, twist", [&](const PlanColumn &p) {
    return cases::degrees(p.setting.twist + p.diagnosis.as_built.twist);
  });
  const cases::Case &c = report.the_case;
  for (std::size_t i = 0; i < c.phases.size(); ++i)
    row(out, report, "end of " + c.phases[i].name, [&](const PlanColumn &p) {
      return i < p.history.phases.size() ? bow(p, p.history.phases[i].reading) : "-";
    });
  row(out, report, "largest cord",
      [&](const PlanColumn &p) { return fixed(largest_cord(p), 0) + " N"; });
  row(out, report, "reaches the target",
      [](const PlanColumn &p) { return std::string(p.on_target ? "yes" : "no"); });
  paragraph(out, "How to tell which one it is: the hot re-reading. What follows is for the middle "
                 "line.");
}

// How far the line has dried, where that hardens it by more than a degree.
std::string dried_line(const LineWarmth &line)
{
  const double harder = line.softens_driest - line.softens_before;
  if (harder < 1)
    return "";
  return "The line's glue lived at " + fixed(100 * line.humidity_before, 0) +
         " % humidity; at the end of the heat it holds the water of " +
         fixed(100 * line.humidity, 0) + " % on average and of " + fixed(100 * line.driest, 0) +
         " % at its driest edge, where it softens " + cases::both_temperature_differences(harder) +
         " higher and slides more slowly. Board edges and ends that are covered while hot stay "
         "damp.";
}

void limits(std::ostringstream &out, const PlanReport &report)
{
  const PlanColumn &p = report.main_column();
  const Peaks &k = p.peaks;
  out << "\nWHAT MIGHT GIVE\n";
  paragraph(out, "Hardest pull on a cord " + all_forces(largest_cord(p)) + " of " +
                     all_forces(report.the_case.bench.cord_limit) + " allowed.");
  paragraph(out, "Hottest: glue line " + both_temperatures(k.hottest_glue) + ", top of the board " +
                     both_temperatures(k.hottest_board_top) + ".");
  if (report.line)
    paragraph(out, "Board's glue line at the end of the heat: nut end " +
                       both_temperatures(report.line->nut_end) + ", middle " +
                       both_temperatures(report.line->middle) + ", body end " +
                       both_temperatures(report.line->body_end) + ".");
  if (report.line && !dried_line(*report.line).empty())
    paragraph(out, dried_line(*report.line));
  if (!k.line.empty())
    paragraph(out, "Board against shaft in the end: " + both_lengths(k.line[0].slip_nut_end) +
                       " at the nut end, " + both_lengths(k.line[0].slip_body_end) +
                       " at the body end (+ is towards the body).");
  out << "  Share of strength used at most, at its temperature (100 % breaks):\n";
  for (const auto &[place, peak] : k.use)
    out << "    " << padded(place, 20)
        << padded(fixed(100 * peak.value, peak.value < 0.1 ? 1 : 0) + " %", 8)
        << padded(peak.mode, 28) << near_fret(report.the_case, peak.place[0]) << ", phase \""
        << report.the_case.phases.at(peak.phase).name << "\"\n";
  if (!k.missing.empty()) {
    std::string text = "Not covered, because no source gives the strength: ";
    for (const std::string &name : k.missing)
      text += (&name == &k.missing.front() ? "" : "; ") + name;
    paragraph(out, text + ".");
  }
}

// The day of a step in a phase of play: after release, with the month where the case tells months.
std::string day_of_play(const cases::Case &c, const cases::Phase &phase, double start, double time)
{
  std::string day = when(c, time);
  if (!phase.climate.points.empty() && phase.climate.file.empty()) {
    constexpr double month = 365.25 * 86400 / 12;
    const auto gone = std::size_t(std::max(0., time - start - 1) / month);
    day += " (" + cases::month_names().at((std::size_t(phase.climate.month) + gone) % 12) + ")";
  }
  return day;
}

// How far bow and twist go in the months of play after the target is read.
void months_of_play(std::ostringstream &out, const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  const PlanColumn &p = report.main_column();
  const std::vector<double> starts = phase_starts(c);
  for (const PhaseEnd &end : p.history.phases) {
    const cases::Phase &phase = c.phases[end.phase];
    if (end.phase <= phase_at_date(c.phases))
      continue;
    std::vector<const StepRecord *> steps;
    for (const StepRecord &step : p.history.steps)
      if (step.phase == end.phase)
        steps.push_back(&step);
    const auto bows = std::minmax_element(steps.begin(), steps.end(), [](auto *a, auto *b) {
      return a->reading.bow < b->reading.bow;
    });
    const auto twists = std::minmax_element(steps.begin(), steps.end(), [](auto *a, auto *b) {
      return a->reading.twist < b->reading.twist;
    });
    const auto told = [&](const StepRecord *step, bool twist) {
      const Reading r = at_bench(step->reading, p.diagnosis.as_built);
      return (twist ? cases::degrees(r.twist) : signed_length(r.bow)) + " at " +
             day_of_play(c, phase, starts[end.phase], step->time);
    };
    paragraph(out, "Lived with afterwards (\"" + phase.name + "\"): bow at the centre from " +
                       told(*bows.first, false) + " to " + told(*bows.second, false) +
                       "; twist from " + told(*twists.first, true) + " to " +
                       told(*twists.second, true) + ".");
  }
}

void computed(std::ostringstream &out, const PlanReport &report)
{
  const PlanColumn &p = report.main_column();
  out << "\nHOW IT WAS COMPUTED\n";
  paragraph(out, std::to_string(p.full_runs) + " full and " + std::to_string(p.unit_runs) +
                     " unit histories; the units missed the last full one by " +
                     both_lengths(std::abs(p.prediction_error_bow)) + " and " +
                     cases::degrees(std::abs(p.prediction_error_twist)) +
                     ". One mm more in the clamp moves the last reading by " +
                     fixed(p.sensitivity.bow_by_bow, 2) + " mm, one degree by " +
                     fixed(p.sensitivity.twist_by_twist, 2) +
                     " degrees. The time scale of the glue line is the least certain number of "
                     "all: the hot re-reading corrects it.");
  for (const std::string &note : p.history.notes)
    paragraph(out, "Note: " + note + ".");
}
} // namespace

std::string plan_text(const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  std::ostringstream out;
  out << "STRAIGHTENING PLAN: " << (c.title.empty() ? c.file : c.title) << "\n\n";
  verdict(out, report);
  out << "\nWHAT IS WRONG WITH IT\n";
  found(out, c);
  if (!report.columns.empty()) {
    diagnosis(out, report);
    strings(out, report);
    const bool refused = report.verdict.kind == Verdict::do_not;
    out << (refused ? "\nWHAT WAS TRIED, AND WHAT CAME OF IT (not to be done)\n" : "\nIN SHORT\n");
    in_short(out, report);
    three_lines(out, report);
    out << (refused ? "\nSTEP BY STEP, AS SIMULATED (not to be done)\n" : "\nWHAT TO DO\n");
    paragraph(out, "Clock: 0:00 is when the heat comes on in the clamp.");
    out << steps_text(report, report.main_column());
    months_of_play(out, report);
    limits(out, report);
    computed(out, report);
  } else
    strings(out, report);
  out << "\nCAUTIONS\n";
  list(out, standing_cautions(c));
  return out.str();
}

std::string history_text(const cases::Case &c, const History &history, const Reading &as_built,
                         const HeatReader &heat)
{
  std::ostringstream out;
  out << "Bow over frets " << c.found.rest_fret_a << " and " << c.found.rest_fret_b << " at fret "
      << c.found.bow_fret << ", forward +; twist: treble corner of the nut up +\n";
  const auto line = [&](const std::string &moment, double time, const Reading &of_model) {
    const Reading r = at_bench(of_model, as_built);
    const HeatReading warm = heat.at(time);
    out << "  " << padded(moment, 28) << padded(clock_face(time), 12)
        << padded("bass " + signed_length(r.bow_bass), 27)
        << padded("centre " + signed_length(r.bow), 29)
        << padded("treble " + signed_length(r.bow_treble), 29)
        << padded(cases::degrees(r.twist), 10) << "probe " << both_temperatures(warm.probe);
    if (warm.moisture)
      out << ", moisture there " << fixed(100 * warm.moisture->probe, 1) << " %, skin "
          << fixed(100 * warm.moisture->skin, 1) << " %, core "
          << fixed(100 * warm.moisture->core, 1) << " %";
    out << "\n";
  };
  for (const PhaseEnd &end : history.phases) {
    const cases::Phase &phase = c.phases[end.phase];
    line(phase.name + ": start", end.time - phase.duration, end.reading_at_start);
    line(phase.name + ": end", end.time, end.reading);
    if (phase.cords)
      out << "    cords at most " << all_forces(end.largest_cord[0]) << " bass, "
          << all_forces(end.largest_cord[1]) << " treble\n";
  }
  for (const std::string &note : history.notes)
    out << "  note: " << note << "\n";
  return out.str();
}
} // namespace overbend::solver
