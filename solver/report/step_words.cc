// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/step_words.h"

#include "cases/text/units.h"
#include "materials/tables.h"
#include "solver/bench/device_words.h"
#include "solver/history/take_up_change.h"
#include "solver/report/second_reading_words.h"
#include "solver/words/heat_words.h"
#include "solver/words/places.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <cmath>

namespace overbend::solver
{
using cases::all_forces;
using cases::both_lengths;
using cases::both_temperatures;

namespace
{
// From this share of the half width on a probe is at the edge, and below that one in the middle.
constexpr double at_the_edge = 0.95, in_the_middle = 0.05;
// A change of a cord without a button that is worth telling, m.
constexpr double least_take_up = 0.1e-3;
// More turns of a button than this are several.
constexpr double one_turn = 1.06;
} // namespace

std::string set_up_in_words(const cases::Case &c, const cases::Phase &phase)
{
  const cases::Bench &b = c.bench;
  std::string text;
  if (phase.cradle)
    text += "Cradle under the back " + at_fret(c, b.cradle_x) + " (" + from_the_nut(b.cradle_x) +
            "), pad " + both_lengths(b.cradle_width) + " wide along the neck. ";
  text += b.hold == cases::BodyHold::pads ? "Body on padding, so that it can tip a little, "
                                          : "Body held hard, ";
  text += "held down over the neck block, never between braces. ";
  return text + device_in_words(c, materials::tables()) +
         (phase.nut ? " Nut in its slot." : " Nut out.");
}

std::string heat_in_words(const cases::Case &c, const cases::Phase &phase)
{
  const cases::Heater &h = c.heater;
  return "Bar on the board from " + from_the_nut(h.from) + " to " + from_the_nut(h.to) + ", " +
         both_lengths(h.width) + " wide, the iron on it from " + near_fret(c, h.iron_from) +
         " to " + near_fret(c, h.iron_to) + ". " + how_heat_is_held(c, phase) +
         " Probe: " + probe_place_in_words(c) + "." +
         (phase.air.wrapped ? " " + wrap_in_words(c) : " Do not wrap the neck.");
}

std::string line_beside_probe(const PlanReport &report)
{
  if (!report.line_heat)
    return "";
  const LineHeat &line = *report.line_heat;
  const cases::Case &c = report.the_case;
  std::string text = "When the probe shows " + both_temperatures(line.probe) +
                     ", the line beside it has " + both_temperatures(line.middle) +
                     " in its middle and " + both_temperatures(line.edge) + " at its edges";
  const double under = line.middle - line.probe;
  if (std::abs(c.probe.across) > at_the_edge && under > 0)
    text += ": a probe at the edge shows " + cases::both_temperature_differences(under) +
            " less than the middle has";
  return text + ". The line is hottest " + at_fret(c, line.hottest_x) + ", at " +
         both_temperatures(line.hottest) + ".";
}

std::string probe_place_in_words(const cases::Case &c)
{
  const cases::Probe &p = c.probe;
  const std::string side = p.across < 0 ? "bass" : "treble";
  const double off = std::abs(p.across);
  const std::string across = off < in_the_middle ? "on the centre line"
                             : off > at_the_edge
                                 ? side + " edge"
                                 : fixed(100 * off, 0) + " % out to the " + side + " edge";
  const std::string height = std::abs(p.height) < 0.1e-3
                                 ? "in the glue line"
                                 : both_lengths(std::abs(p.height)) +
                                       (p.height > 0 ? " above" : " below") + " the glue line";
  return near_fret(c, p.x) + ", " + across + ", " + height;
}

std::string block_in_words(double below)
{
  return "Stop block under the headstock, in the middle between the cords, its top " +
         both_lengths(below) +
         " below where the headstock rests with the cords slack. Its height decides: cords drawn "
         "until the headstock sits on it, and shims until the readings are there. One block sets "
         "the bow and not the twist.";
}

std::string rod_in_words(const cases::Case &c, cases::RodState state)
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

bool by_buttons(const cases::Case &c)
{
  return c.bench.device == cases::Device::posts;
}

namespace
{
std::string take_up(const PlanReport &report, const std::string &pull, double length)
{
  const double amount = std::abs(length);
  const bool with_turns = by_buttons(report.the_case);
  const double number = with_turns ? amount / report.cord_per_turn : 0;
  if (with_turns ? turns(number) == "none" : amount < least_take_up)
    return pull + " stays as it is";
  return pull + (length < 0 ? " let out " : " take up ") + both_lengths(amount) +
         (with_turns ? " = " + turns(number) + " button turn" + (number > one_turn ? "s" : "")
                     : "");
}
} // namespace

std::string take_ups_in_words(const PlanReport &report, const PlanColumn &column,
                              const PhaseEnd &end)
{
  const auto change = take_up_change(report.the_case, column.history, end);
  const auto names = pull_names(report.the_case);
  std::string text;
  for (std::size_t k = 0; k < names.size(); ++k)
    text += (k > 0 ? "; " : "") +
            (change[k] ? take_up(report, names[k], *change[k]) : names[k] + " hangs slack");
  return text;
}

std::string pulls_in_words(const cases::Case &c, const StepRecord &step)
{
  const auto names = pull_names(c);
  std::string text;
  for (std::size_t k = 0; k < names.size(); ++k)
    text += (k > 0 ? ", " : "") + names[k] + " " +
            (step.slack[k] ? "slack" : all_forces(step.forces.cord[k]));
  return text;
}

namespace
{
// What an edge tells apart, m (trade 1.3).
constexpr double readable = 0.05e-3;

// The first pass, if the phase is of it: slow and fast lines have its setting. In a later pass each
// line is clamped for itself, and ends where it is wanted.
const PassPlan *first_pass(const PlanReport &report, const PhaseEnd &end)
{
  const bool first = report.the_case.phases.at(end.phase).pass == 1;
  return first && report.job && !report.job->passes.empty() ? &report.job->passes.front() : nullptr;
}
} // namespace

std::string run_on_in_words(const PlanReport &report, const PlanColumn &column, const PhaseEnd &end)
{
  const PhaseEnd &last = column.history.phases.at(end.phase - 1);
  const Reading ran = at_bench(report.the_case, last.reading, column.diagnosis.as_built);
  return "Lift the bar only as long as it takes to read. Since the last setting the neck will have "
         "run on to " +
         bow_in_words(ran.bow) + ", twist " + twist_in_words(ran.twist) + ".";
}

std::string hot_reading_tells(const PlanReport &report, const PhaseEnd &end)
{
  const PassPlan *const pass = first_pass(report, end);
  if (pass != nullptr && pass->second)
    return "If it has run on by " + both_lengths(readable) +
           " more than that the line is fast, if it has not run on it is slow. Set it to the "
           "readings all the same: the second reading, at " +
           second_reading_time(report) + ", tells more, and what to do.";
  const auto ends = [&](std::size_t speed) {
    return pass == nullptr ? std::string()
                           : ": released and rested " + bow_in_words(pass->released[speed].bow);
  };
  const bool with_turns = by_buttons(report.the_case);
  return "If it has run on by " + both_lengths(readable) + " more than that, or comes there " +
         (with_turns ? "in fewer turns" : "with less take-up") +
         ", the line is faster than planned and ends further back (a fast one" + ends(2) +
         "). If it has not run on and takes more " + (with_turns ? "turns" : "take-up") +
         ", the line is slower and ends further forward (a slow one" + ends(0) +
         "). Set it to the readings all the same; what it reads after release decides.";
}
} // namespace overbend::solver
