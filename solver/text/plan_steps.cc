// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_steps.h"

#include "cases/declare/phases.h"
#include "cases/text/units.h"
#include "solver/history/take_up_change.h"
#include "solver/report/free_warming.h"
#include "solver/report/pass_clock.h"
#include "solver/report/second_reading_words.h"
#include "solver/report/step_words.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/phase_names.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace overbend::solver
{
namespace
{
using cases::all_forces;
using cases::both_temperatures;

// A change of take-up that a bench can tell, m.
constexpr double least_take_up = 0.02e-3;

class StepWriter
{
public:
  StepWriter(const PlanReport &report_, const PlanColumn &column_)
      : report(report_), c(report_.the_case), column(column_), passes(number_of_passes(c))
  {}

  std::string all()
  {
    out << folded(passes > 1 ? "Each pass has its own clock: 0:00 is when its heat comes on in the "
                               "clamp."
                             : "Clock: 0:00 is when the heat comes on in the clamp.",
                  "  ", "  ");
    for (const PhaseEnd &end : column.history.phases) {
      begin_pass(c.phases[end.phase].pass);
      one(end);
    }
    return out.str();
  }

private:
  void say(const std::string &text) { out << folded(text, "    ", "    "); }

  void begin_pass(int pass)
  {
    if (passes < 2 || pass == at_pass)
      return;
    at_pass = pass;
    out << "\n  PASS " << pass << "\n";
    if (pass > 1)
      out << folded("As a line of middle speed would need it. Read the neck after the pass before, "
                    "enter it in the case as [first_pass] and plan again; do that plan, not this "
                    "one.",
                    "  ", "  ");
  }

  // Under the heading of its pass a phase needs no "pass 2" in its name.
  std::string name_of(const cases::Phase &phase) const
  {
    return passes > 1 ? without_pass(phase.name, phase.pass) : phase.name;
  }

  // What has been told already, in this pass or the one before, is not told again.
  void say_where_new(const std::string &text, const std::string &as_before)
  {
    const bool told = std::find(set_ups.begin(), set_ups.end(), text) != set_ups.end();
    say(told ? as_before : text);
    if (!told)
      set_ups.push_back(text);
  }

  void one(const PhaseEnd &end)
  {
    const cases::Phase &phase = c.phases[end.phase];
    const cases::Phase bare;
    const cases::Phase &before = end.phase > 0 ? c.phases[end.phase - 1] : bare;
    out << folded(when_it_begins(c, end.phase) + ": " + name_of(phase) + ", " +
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
          (phase.cords ? " The clamp stays until it is let go." : "") +
          (phase.air.wrapped ? " Lay the wrap over the board's top as well." : ""));
    if (phase.cords && !before.cords)
      set_up(phase, end);
    if (phase.kind == cases::PhaseKind::reread && phase.block && !end.block_below)
      say("Read again, and leave cords and block as they are: the block holds the bow. What the "
          "twist has run on by tells how soft the line is.");
    if (phase.cords && phase.pull.kind != cases::Pull::Kind::none)
      pull(end, before.cords);
    if (end.phase == cases::second_reading(c.phases))
      read_a_second_time();
    if (end.block_below && before.cords)
      say(block_in_words(*end.block_below));
    if (phase.strings && !before.strings)
      string_up(end, phase);
    finish(end, phase);
    if (end.phase == free_reading_phase(c.phases))
      warmed_free();
  }

  void read_a_second_time()
  {
    if (pass_read_twice(report) == nullptr)
      return say("Lift the bar only as long as it takes to read, and write the readings down. "
                 "What pulls stays as it is.");
    say(second_reading_in_words(report));
    out << second_reading_rows(report, "      ");
    say(second_reading_ends(report));
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
    say_where_new(set_up_in_words(c, phase), "Set it up as before.");
    if (end.block_below)
      say(block_in_words(*end.block_below));
  }

  void heat_on(const cases::Phase &phase)
  {
    say_where_new(heat_in_words(c, phase) + " " + line_beside_probe(report),
                  "Bar, iron, probe and wrap as before.");
  }

  // Pull or slack off to the readings: take-up as a guide, readings as the master.
  void pull(const PhaseEnd &end, bool already_clamped)
  {
    const StepRecord &first = step_at_start(column.history, end.phase);
    if (already_clamped)
      say(run_on_in_words(report, column, end));
    take_ups(end, already_clamped);
    readings(end.shape_at_start, first.reading, "it is set by this fret");
    say("It then pulls: " + pulls_in_words(c, first) + "; the cradle carries " +
        all_forces(first.forces.cradle) + ", at most " +
        fixed(first.forces.cradle_pressure * 1e-6, 1) + " MPa under its pad.");
    if (already_clamped && c.phases[end.phase].heater)
      say(hot_reading_tells(report, end));
    const double twist_left = first.reading.twist - c.phases[end.phase].pull.twist;
    if (!end.pull_reached && std::abs(twist_left) > c.target.twist_tolerance)
      say(sets_twist(c) ? "One cord is slack here: the twist asked for is out of reach with two "
                          "cords."
                        : "The twist asked for is out of reach: this sets the bow alone.");
  }

  void take_ups(const PhaseEnd &end, bool already_clamped)
  {
    double most = 0;
    for (const auto &change : take_up_change(c, column.history, end))
      most = std::max(most, std::abs(change.value_or(0)));
    if (most > least_take_up)
      say("From " + std::string(already_clamped ? "there" : "just taut") + ": " +
          take_ups_in_words(report, column, end) + ". " +
          (by_buttons(c) ? "Turns are" : "That is") + " a guide; the readings decide:");
  }

  void readings(const BoardShape &shape, const Reading &of_model, const std::string &mark,
                bool strings = false)
  {
    out << text::fret_table(c, stage_readings(c, shape, of_model, column.diagnosis.as_built), mark,
                            strings);
  }

  void release(const PhaseEnd &end)
  {
    const bool two = pull_names(c).size() > 1;
    say("Let go slowly, " + std::string(by_buttons(c) ? "a half turn" : "a little") + " at a time" +
        (two ? ", both sides in turn" : "") + ". Right after it should read:");
    readings(end.shape_at_start, end.reading_at_start, "");
  }

  void string_up(const PhaseEnd &end, const cases::Phase &phase)
  {
    say("String up to pitch (" + c.strings.set + ", " + all_forces(report.planned_tension) +
        " in all), rod " + rod_in_words(c, phase.rod) +
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
      text += "; it pulls: " + pulls_in_words(c, last_step(end.phase));
    say(text + ".");
    if (end.phase == phase_at_date(c.phases) && !phase.cords) {
      say("That is the day the plan aims at. Fret by fret:");
      readings(end.shape, end.reading, "asked for at this fret", phase.strings);
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
  const int passes;
  int at_pass = 0;
  std::vector<std::string> set_ups; // told so far
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

std::string steps_text(const PlanReport &report, const PlanColumn &column)
{
  return StepWriter(report, column).all();
}
} // namespace overbend::solver
