// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_steps.h"

#include "cases/units.h"
#include "materials/tables.h"
#include "solver/bench/device_words.h"
#include "solver/history/take_up_change.h"
#include "solver/report/free_warming.h"
#include "solver/report/plan_text_parts.h"
#include "solver/words/heat_words.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

namespace overbend::solver
{
namespace
{
using cases::all_forces;
using cases::both_lengths;
using cases::both_temperatures;

// A change of take-up that a bench can tell, m.
constexpr double least_take_up = 0.02e-3;

std::string block_in_words(double below)
{
  return "Stop block under the headstock, in the middle between the cords, its top " +
         both_lengths(below) +
         " below where the headstock rests with the cords slack. Its height decides: cords drawn "
         "until the headstock sits on it, and shims until the readings are there. One block sets "
         "the bow and not the twist.";
}

class StepWriter
{
public:
  StepWriter(const PlanReport &report_, const PlanColumn &column_)
      : report(report_), c(report_.the_case), column(column_)
  {}

  std::string all()
  {
    for (const PhaseEnd &end : column.history.phases)
      one(end);
    return out.str();
  }

private:
  void say(const std::string &text) { out << folded(text, "    ", "    "); }

  void one(const PhaseEnd &end)
  {
    const cases::Phase &phase = c.phases[end.phase];
    const cases::Phase bare;
    const cases::Phase &before = end.phase > 0 ? c.phases[end.phase - 1] : bare;
    out << folded(when(c, end.time - phase.duration) + ": " + phase.name + ", " +
                      cases::clock(phase.duration),
                  "  ", "      ");
    if (before.strings && !phase.strings && end.phase > 0)
      say("Strings off.");
    if (before.cords && !phase.cords)
      release(end);
    if (phase.heater && !before.heater)
      heat_on(phase);
    if (!phase.heater && before.heater)
      say(std::string("Heat off: iron and bar away from the board.") +
          (phase.cords ? " The clamp stays until it is let go." : ""));
    if (phase.cords && !before.cords)
      set_up(phase, end);
    if (phase.kind == cases::PhaseKind::reread && phase.block && !end.block_below)
      say("Read again, and leave cords and block as they are: the block holds the bow. What the "
          "twist has run on by tells how soft the line is.");
    if (phase.cords && phase.pull.kind != cases::Pull::Kind::none)
      pull(end, before.cords);
    if (end.block_below && before.cords)
      say(block_in_words(*end.block_below));
    if (phase.strings && !before.strings)
      string_up(end, phase);
    finish(end, phase);
    if (end.phase == free_reading_phase(c.phases))
      warmed_free();
  }

  // All lines that were computed: the reading is there to tell them apart.
  void warmed_free()
  {
    std::vector<FreeCourse> lines;
    for (const PlanColumn &one : report.columns)
      if (const auto course = free_course(c, one.history, one.diagnosis, one.speed))
        lines.push_back(*course);
    if (!lines.empty())
      say(free_warming_text(lines));
  }

  void set_up(const cases::Phase &phase, const PhaseEnd &end)
  {
    const cases::Bench &b = c.bench;
    std::string text;
    if (phase.cradle)
      text += "Cradle under the back " + at_fret(c, b.cradle_x) + " (" + from_the_nut(b.cradle_x) +
              "), pad " + both_lengths(b.cradle_width) + " wide along the neck. ";
    text += b.hold == cases::BodyHold::pads ? "Body on padding, so that it can tip a little, "
                                            : "Body held hard, ";
    text += "held down over the neck block, never between braces. ";
    text += device_in_words(c, materials::tables());
    text += phase.nut ? " Nut in its slot." : " Nut out.";
    say(text);
    if (end.block_below)
      say(block_in_words(*end.block_below));
  }

  void heat_on(const cases::Phase &phase)
  {
    const cases::Heater &h = c.heater;
    say("Bar on the board from " + from_the_nut(h.from) + " to " + from_the_nut(h.to) +
        ", the iron on it from " + near_fret(c, h.iron_from) + " to " + near_fret(c, h.iron_to) +
        ". " + how_heat_is_held(c, phase) + " Probe: " + probe_place_in_words(c) + "." +
        (phase.air.wrapped ? " " + wrap_in_words() : ""));
  }

  std::string side_take_up(const std::string &side, double length) const
  {
    const double number = std::abs(length) / report.cord_per_turn;
    if (turns(number) == "none")
      return std::string(side) + " stays as it is";
    return std::string(side) + (length < 0 ? " let out " : " take up ") +
           both_lengths(std::abs(length)) + " = " + turns(number) + " button turn" +
           (number > 1.06 ? "s" : "");
  }

  // Pull or slack off to the readings: take-up as a guide, readings as the master.
  void pull(const PhaseEnd &end, bool already_clamped)
  {
    const StepRecord &first = step_at_start(column.history, end.phase);
    if (already_clamped) {
      const PhaseEnd &last = column.history.phases[end.phase - 1];
      const Reading ran = at_bench(c, last.reading, column.diagnosis.as_built);
      say("Read again. Since the last setting the neck will have run on to " +
          bow_in_words(ran.bow) + ", twist " + twist_in_words(ran.twist) +
          ". If it has run further, the line is softer than planned; if it has hardly moved, it is "
          "stiffer.");
    }
    take_ups(end, already_clamped);
    readings(end.shape_at_start, first.reading, "  <- set by this fret");
    say("It then pulls: " + pulls_in_words(first) + "; the cradle carries " +
        all_forces(first.forces.cradle) + ", at most " +
        fixed(first.forces.cradle_pressure * 1e-6, 1) + " MPa under its pad.");
    if (!end.pull_reached)
      say(sets_twist(c) ? "One cord is slack here: the twist asked for is out of reach with two "
                          "cords."
                        : "The twist asked for is out of reach: this sets the bow alone.");
  }

  void take_ups(const PhaseEnd &end, bool already_clamped)
  {
    const auto change = take_up_change(c, column.history, end);
    const auto names = pull_names(c);
    std::string text;
    double most = 0;
    for (std::size_t k = 0; k < names.size(); ++k) {
      text += (k > 0 ? "; " : "") +
              (change[k] ? side_take_up(names[k], *change[k]) : names[k] + " hangs slack");
      most = std::max(most, std::abs(change[k].value_or(0)));
    }
    if (most > least_take_up)
      say("From " + std::string(already_clamped ? "there" : "just taut") + ": " + text +
          ". Turns are a guide; the readings decide:");
  }

  std::string pulls_in_words(const StepRecord &step) const
  {
    const auto names = pull_names(c);
    std::string text;
    for (std::size_t k = 0; k < names.size(); ++k)
      text += (k > 0 ? ", " : "") + names[k] + " " +
              (step.slack[k] ? "slack" : all_forces(step.forces.cord[k]));
    return text;
  }

  void readings(const BoardShape &shape, const Reading &of_model, const std::string &mark,
                bool strings = false)
  {
    out << text::fret_table(c, stage_readings(c, shape, of_model, column.diagnosis.as_built), mark,
                            strings);
  }

  void release(const PhaseEnd &end)
  {
    say("Let both cords go slowly, in turn, a half turn at a time. Right after it should "
        "read:");
    readings(end.shape_at_start, end.reading_at_start, "");
  }

  std::string rod_in_words(cases::RodState state) const
  {
    const cases::Rod &rod = c.neck.rod;
    switch (state) {
    case cases::RodState::seized:
      return "seized as it is";
    case cases::RodState::broken:
      return "broken as it is";
    case cases::RodState::set:
      break;
    default:
      return "slack";
    }
    std::string text = "set to about " + all_forces(rod.force.value_or(0));
    if (rod.kind == cases::RodKind::two_way)
      text += std::string(", turned so that it bows the neck ") +
              (rod.bows == cases::RodBows::forward ? "forward" : "back");
    if (rod.state == cases::RodState::at_its_stop)
      text += ", which is its stop: no tighter";
    return text;
  }

  void string_up(const PhaseEnd &end, const cases::Phase &phase)
  {
    say("String up to pitch (" + c.strings.set + ", " + all_forces(report.planned_tension) +
        " in all), rod " + rod_in_words(phase.rod) +
        ". Right after: " + reading_words(end.reading_at_start) + ".");
  }

  std::string reading_words(const Reading &of_model) const
  {
    const Reading r = at_bench(c, of_model, column.diagnosis.as_built);
    return "bass " + signed_length(r.bow_bass) + ", centre " + signed_length(r.bow) + ", treble " +
           signed_length(r.bow_treble) + ", twist " + twist_in_words(r.twist);
  }

  void finish(const PhaseEnd &end, const cases::Phase &phase)
  {
    std::string text = "At the end: " + reading_words(end.reading);
    const std::size_t at = 2 * end.phase + 1;
    const bool warm =
        at < report.heat.size() && (phase.heater || report.heat[at].probe > c.room.temperature + 1);
    if (warm) {
      text += "; probe " + both_temperatures(report.heat[at].probe);
      if (report.heat[at].bar && phase.heater)
        text += ", bar " + both_temperatures(*report.heat[at].bar);
    }
    if (phase.cords)
      text += "; it pulls: " + pulls_in_words(last_step(end.phase));
    say(text + ".");
    if (end.phase == phase_at_date(c.phases) && !phase.cords) {
      say("That is the day the plan aims at. Fret by fret:");
      readings(end.shape, end.reading, "  <- asked for at this fret", phase.strings);
    }
  }

  const StepRecord &last_step(unsigned phase) const
  {
    const StepRecord *last = nullptr;
    for (const StepRecord &step : column.history.steps)
      if (step.phase == phase)
        last = &step;
    return *last;
  }

  const PlanReport &report;
  const cases::Case &c;
  const PlanColumn &column;
  std::ostringstream out;
};
} // namespace

std::optional<double> block_below_rest(const History &history)
{
  std::optional<double> below;
  for (const PhaseEnd &end : history.phases)
    if (end.block_below)
      below = end.block_below;
  return below;
}

std::string probe_place_in_words(const cases::Case &c)
{
  const cases::Probe &p = c.probe;
  const std::string side = p.across < 0 ? "bass" : "treble";
  const double off = std::abs(p.across);
  const std::string across = off < 0.05   ? "on the centre line"
                             : off > 0.95 ? side + " edge"
                                          : fixed(100 * off, 0) + " % out to the " + side + " edge";
  const std::string height = std::abs(p.height) < 0.1e-3
                                 ? "in the glue line"
                                 : both_lengths(std::abs(p.height)) +
                                       (p.height > 0 ? " above" : " below") + " the glue line";
  return near_fret(c, p.x) + ", " + across + ", " + height;
}

std::string when(const cases::Case &c, double time)
{
  const double release = time_of_release(c);
  if (time > release + 1)
    return cases::clock(time - release) + " after release";
  const double clock = time - zero_of_clock(c);
  // Long before the heat, the clock of the day means nothing.
  return clock < -24 * 3600 ? cases::clock(-clock) + " before" : clock_face(clock);
}

std::string steps_text(const PlanReport &report, const PlanColumn &column)
{
  return StepWriter(report, column).all();
}
} // namespace overbend::solver
