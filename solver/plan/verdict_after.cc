// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/verdict.h"

#include "cases/units.h"
#include "solver/climate/air_series.h"
#include "solver/plan/work_bounds.h"
#include "solver/words/places.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
using cases::all_forces;
using cases::both_lengths;
using cases::both_temperatures;

const char *const use_level = "level the board and refret";
const char *const use_wedges = "wedge-fret it: tangs a little wider than the slots, fret by fret";
const char *const board_off = "take the board off, put in bars or a new rod, and glue it back";

std::string mpa(double pascal)
{
  return fixed(pascal * 1e-6, pascal < 10e6 ? 1 : 0) + " MPa";
}

// Why the line does not slide, from what it is and how warm it got.
void explain_still_line(const LineWarmth &w, const Workbench &workbench, Verdict &v)
{
  const GlueLineModel &line = workbench.model.glue_line[board_line];
  const std::string warm = "nut end " + both_temperatures(w.nut_end) + ", middle " +
                           both_temperatures(w.middle) + ", body end " +
                           both_temperatures(w.body_end);
  if (w.ends_lock())
    v.refuse("Both ends of the board's glue line stay cold (" + warm +
                 ") and lock it, however soft its middle is: clamped like this the neck keeps "
                 "hardly anything.",
             {"let the bar reach over the nut end with the nut out, or move the iron nearer to the "
              "nut, so that one end can slide; then plan again"});
  else if (line.glue.plateau > sliding_modulus)
    v.refuse("The line does not move: " + line.glue.name + " is cross-linked, it keeps " +
                 mpa(w.middle_modulus) + " of stiffness at " + both_temperatures(w.middle) + ".",
             {use_level, use_wedges, board_off});
  else if (line.glue.animal)
    v.refuse("The line does not move: " + line.glue.name + " this dry (" +
                 fixed(100 * w.humidity, 0) + " % humidity) does not soften before about " +
                 both_temperatures(materials::softening_temperature(line.glue, w.humidity)) +
                 "; it needs heat and moisture together.",
             {use_level, use_wedges, board_off});
  else
    v.refuse("The line does not move: at " + warm + " the glue is still too stiff (middle " +
                 mpa(w.middle_modulus) + " after the hold).",
             {"warmer or longer, if glue, finish and binding allow it", use_level, use_wedges,
              board_off});
}

// What the place that limits the plan bears, as a share of its strength.
double bears_at_most(const PlanColumn &p)
{
  const auto peak = p.peaks.use.find(p.limit_place.value());
  return refused_from(p.limit_place.value(), peak == p.peaks.use.end() ? Peak{} : peak->second,
                      materials::tables().limits);
}

void judge_limit(const PlanColumn &p, const Workbench &workbench, const ThermalHistory &heat,
                 const MoistureHistory *moisture, Verdict &v)
{
  const cases::Case &c = workbench.the_case;
  const std::string best =
      (p.within_limits ? "The best within it reads " : "A run just beyond it still reads ") +
      bow_in_words(p.reached.bow) + ", twist " + twist_in_words(p.reached.twist) + ", when strung.";
  switch (p.limit) {
  case Limit::none:
    break;
  case Limit::line_does_not_move:
    explain_still_line(line_warmth(workbench, heat, moisture), workbench, v);
    break;
  case Limit::cord_pull:
    v.refuse("A cord would have to pull more than " + all_forces(c.bench.cord_limit) +
                 ", more than it and its tuner should carry. " + best,
             {"a strap behind the nut or a bar across the headstock instead of cords on the posts",
              "go only as far as the cords allow, in two passes", use_level});
    break;
  case Limit::tuner_pull:
    v.refuse("A cord would have to pull more than " +
                 all_forces(materials::tables().tuner(c.tuners.kind).force_limit) +
                 ", more than these tuners should carry. " + best,
             {"a strap behind the nut or a bar across the headstock instead of cords on the posts",
              "go only as far as the tuners allow, in two passes", use_level});
    break;
  case Limit::strength:
    v.refuse("The " + std::string(name(p.limit_place.value())) + " would be used to more than " +
                 fixed(100 * bears_at_most(p), 0) + " % of its strength: it may give. " + best,
             {p.limit_place == Region::under_the_cradle
                  ? "a broader cradle or a softer pad, and two passes"
                  : "less overbend in two passes, a strap behind the nut",
              use_level});
    break;
  case Limit::overbend:
    v.refuse("It would have to be clamped further past straight than a neck should be (" +
                 both_lengths(materials::tables().limits.most_overbend(c.neck.scale_length)) +
                 "). " + best,
             {use_level, use_wedges, board_off});
    break;
  case Limit::twist_out_of_reach:
    if (std::abs(p.reached.twist - p.wanted.twist) <= materials::tables().limits.least_twist) {
      v.caution("Two cords cannot make all of the torque while they pull as little as this bow "
                "needs: one of them goes slack, and " +
                twist_in_words(p.reached.twist) + " stays. Nobody notices that little.");
      break;
    }
    v.refuse("Two cords cannot make the torque for this twist while they pull as little as this "
             "bow needs: one of them goes slack. " +
                 best,
             {"a bar across the headstock, pulled down on one side",
              "take out the bow and dress the twist out of the frets"});
    break;
  }
}

void judge_miss(const PlanColumn &p, Verdict &v)
{
  if (p.on_target || p.limit != Limit::none)
    return;
  const double bow = p.reached.bow - p.wanted.bow, twist = p.reached.twist - p.wanted.twist;
  const std::string miss = "The plan ends " + both_lengths(std::abs(bow)) + " and " +
                           cases::degrees(std::abs(twist)) + " off its target.";
  const materials::WorkLimits &limits = materials::tables().limits;
  if (std::abs(bow) > limits.bow_miss || std::abs(twist) > limits.twist_miss)
    v.refuse(miss, {"another schedule: longer hold, cradle elsewhere, two passes", use_level});
  else
    v.caution(miss);
}

void judge_use(const PlanColumn &p, const cases::Case &c, Verdict &v)
{
  const materials::WorkLimits &limits = materials::tables().limits;
  for (const auto &[place, peak] : p.peaks.use) {
    const std::string what = "The " + std::string(name(place)) + " is used to " +
                             fixed(100 * peak.value, 0) + " % of its strength (" + peak.mode +
                             ", " + at_fret(c, peak.place[0]) + ", phase \"" +
                             c.phases.at(peak.phase).name + "\")";
    const char *const advice =
        place == Region::scarf_bond ? ": keep heat and load off the joint as far as you can."
        : place == Region::headstock_root
            ? ": look at it with a lamp before and while it is clamped."
        : is_glue_line(place)               ? ": put light cross clamps over the board."
        : place == Region::under_the_cradle ? ": a broader cradle or a softer pad spares it."
                                            : ".";
    if (peak.value > refused_from(place, peak, limits))
      v.refuse(
          what + ": it may give.",
          {"less overbend in two passes, a broader cradle, a strap behind the nut", use_level});
    else if (peak.value > caution_from(place, limits))
      v.caution(what + advice);
  }
}

void judge_heat(const PlanColumn &p, const Workbench &workbench, Verdict &v)
{
  const double hottest = materials::tables().limits.hottest;
  const double limit =
      std::min(workbench.model.glue_line[board_line].glue.temperature_limit, hottest);
  if (p.peaks.hottest_glue > limit)
    v.refuse("The glue line would reach " + both_temperatures(p.peaks.hottest_glue) +
                 "; its limit is " + both_temperatures(limit) + ".",
             {"a cooler bar"});
  if (p.peaks.hottest_board_top > hottest)
    v.refuse("The board's top would reach " + both_temperatures(p.peaks.hottest_board_top) +
                 "; no surface should pass " + both_temperatures(hottest) + ".",
             {"a cooler bar"});
}

void judge_diagnosis(const PlanColumn &p, Verdict &v)
{
  const Diagnosis &d = p.diagnosis;
  if (std::abs(d.found.bow) > d.ceiling && d.found.bow > 0 && d.wood_bow > 0.05e-3)
    v.caution("Heat and strings explain at most " + both_lengths(d.ceiling) + " of the " +
              both_lengths(d.found.bow) +
              " found. What is beyond it is in the wood, or the neck was built so.");
  if (d.wood_share_of_found() > materials::tables().limits.much_in_the_wood)
    v.caution("About " + fixed(100 * d.wood_share_of_found(), 0) +
              " % of the bow is taken to be in the wood: expect a part of the correction to go "
              "again, 10 to 20 % within two days and 5 to 15 % over the next weeks (shop "
              "experience, an estimate), and say so to the owner.");
}
} // namespace

std::vector<std::string> left_out_of_the_air(const cases::Case &the_case)
{
  std::vector<std::string> all;
  for (const cases::Phase &phase : the_case.phases)
    if (leaves_out_breathing(phase))
      all.push_back("The air of \"" + phase.name +
                    "\" changes by the hour, and it lasts longer than two weeks: what the skin of "
                    "the wood takes up and gives off within each day is left out. Such swings make "
                    "a strung neck creep; in a week on tour they made a third of the bow's growth, "
                    "so it may grow half as much again. A phase of two weeks is followed in full.");
  return all;
}

Verdict judge_after(const PlanColumn &column, const Workbench &workbench,
                    const ThermalHistory &heat, const MoistureHistory *moisture,
                    const cases::Case &the_case)
{
  Verdict v;
  judge_limit(column, workbench, heat, moisture, v);
  judge_miss(column, v);
  // A line that does not move was tried with a first guess: what that asks is no plan's matter.
  const bool moves = column.limit != Limit::line_does_not_move;
  if (moves)
    judge_use(column, the_case, v);
  judge_heat(column, workbench, v);
  judge_diagnosis(column, v);
  const double tuner = materials::tables().tuner(the_case.tuners.kind).force_limit;
  double pull = 0;
  for (const PhaseEnd &phase : column.history.phases)
    pull = std::max({pull, phase.largest_cord[0], phase.largest_cord[1]});
  if (moves && pull > tuner && column.limit != Limit::tuner_pull)
    v.refuse("A cord pulls " + all_forces(pull) + "; these tuners should not carry more than " +
                 all_forces(tuner) + ".",
             {"a strap behind the nut or a bar across the headstock", "two passes"});
  for (const PhaseEnd &phase : column.history.phases)
    if (!phase.pull_reached && column.on_target)
      v.caution("In phase \"" + the_case.phases.at(phase.phase).name +
                "\" one cord goes slack before the twist asked for is reached.");
  for (const std::string &sentence : left_out_of_the_air(the_case))
    v.caution(sentence);
  return v;
}
} // namespace overbend::solver
