// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/verdict.h"

#include "cases/text/units.h"
#include "solver/climate/air_series.h"
#include "solver/heating/line_heat.h"
#include "solver/job/job.h"
#include "solver/job/limits_named.h"
#include "solver/plan/work_bounds.h"
#include "solver/words/places.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
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
             {use_level, use_wedges, board_off}, Verdict::not_by_heat);
  else if (line.glue.animal)
    v.refuse("The line does not move: " + line.glue.name + " this dry (" +
                 fixed(100 * w.humidity, 0) + " % humidity) does not soften before about " +
                 both_temperatures(materials::softening_temperature(line.glue, w.humidity)) +
                 "; it needs heat and moisture together.",
             {use_level, use_wedges, board_off}, Verdict::not_by_heat);
  else
    v.refuse("The line does not move: at " + warm + " the glue is still too stiff (middle " +
                 mpa(w.middle_modulus) + " after the hold).",
             {use_level, use_wedges, board_off}, Verdict::not_by_heat);
}

std::string ends_at(const Job &job)
{
  const Reading &r = job.passes.back().strung[1];
  const std::size_t n = job.passes.size();
  const bool second = n > 1 || job.first_pass;
  return std::string(second ? "After two passes" : "After the pass") + " it would read " +
         bow_in_words(r.bow) + ", twist " + twist_in_words(r.twist) + ", strung; wanted is " +
         bow_in_words(job.wanted.bow) + ", twist " + twist_in_words(job.wanted.twist) + ".";
}

void name_limits(const Job &job, Verdict &v)
{
  for (const std::string &sentence : limits_in_words(job))
    v.refuse(sentence);
}

std::vector<std::string> instead_of_heat(const cases::Case &c)
{
  std::vector<std::string> ways = {use_level, use_wedges};
  if (c.neck.rod.kind == cases::RodKind::none)
    ways.push_back(board_off);
  else
    ways.push_back("take the board off, mend or replace the rod, and glue it back");
  return ways;
}

// A job that does not end in two passes, or only with something beyond its limit.
void judge_job(const Job &job, const Workbench &workbench, const ThermalHistory &heat,
               const MoistureHistory *moisture, Verdict &v)
{
  if (!job.line_moves) {
    explain_still_line(line_warmth(workbench, heat, moisture), workbench, v);
    name_limits(job, v);
    return;
  }
  if (job.ends)
    return;
  const auto is_passed = [](const Demand &d) { return d.share >= 1 + 1e-6; };
  const std::vector<Demand> &asked = job.passes.back().demands;
  if (job.planned.phases_listed && job.passes.back().limit == Limit::fast_line &&
      std::none_of(asked.begin(), asked.end(), is_passed)) {
    v.caution("The phases listed make one pass, held back so that a fast line does not end "
              "back-bowed. " +
              ends_at(job) + " Read it then, and plan a second pass from there.");
    return;
  }
  v.refuse("No set-up within the limits ends this in two passes. " + ends_at(job),
           instead_of_heat(workbench.the_case));
  const PassPlan &last = job.passes.back();
  if (last.limit == Limit::twist_out_of_reach)
    v.refuse("The twist is out of reach of what pulls here while the bow asks for this little "
             "force.");
  if (last.limit == Limit::fast_line)
    v.refuse(std::string("Further in one pass, a line that turns out fast would end ") +
             (rod_pulls_forward(job.planned) ? "further back than its rod pulls it forward."
                                             : "back-bowed, strung, and no rod here pulls a neck "
                                               "forward."));
  name_limits(job, v);
}

const char *advice_for(Region place)
{
  return place == Region::scarf_bond ? ": keep heat and load off the joint as far as you can."
         : place == Region::headstock_root
             ? ": look at it with a lamp before and while it is clamped."
         : is_glue_line(place)               ? ": put light cross clamps over the board."
         : place == Region::under_the_cradle ? ": a broader cradle or a softer pad spares it."
                                             : ".";
}

// What the recorded history uses of each place's strength. A place that the reasons name already,
// as what is passed or holds a pass back, is not named again.
void judge_use(const Job &job, const PlanColumn &p, Verdict &v)
{
  const materials::WorkLimits &limits = materials::tables().limits;
  const cases::Case &c = job.planned;
  const std::vector<Demand> named = job.ends ? std::vector<Demand>() : limits_named(job);
  for (const auto &[place, peak] : p.peaks.use) {
    if (std::any_of(named.begin(), named.end(),
                    [at = place](const Demand &d) { return d.region == at; }))
      continue;
    const std::string what = "The " + std::string(name(place)) + " is used to " +
                             fixed(100 * peak.value, 0) + " % of its strength (" + peak.mode +
                             ", " + at_fret(c, peak.place[0]) + ", phase \"" +
                             c.phases.at(peak.phase).name + "\")";
    if (peak.value > refused_from(place, peak, limits))
      v.refuse(
          what + ": it may give.",
          {"less overbend in two passes, a broader cradle, a strap behind the nut", use_level});
    else if (peak.value > caution_from(place, limits))
      v.caution(what + "; " + fixed(100 * refused_from(place, peak, limits), 0) +
                " % is the limit" + advice_for(place));
  }
}

// What holds the heat, at its figure: "the bar at 66 degC (151 degF)".
std::string held_in_words(const Job &job)
{
  const cases::Case &c = job.planned;
  return c.heater.held_by == cases::HeldBy::probe
             ? "the probe at " + both_temperatures(c.probe.hold_at)
             : "the bar at " + both_temperatures(job.heat.set_point);
}

// Each place by its own limit, with the overshoot of what holds the heat.
void judge_places(const Job &job, Verdict &v)
{
  const HeatPlaces &p = job.heat.with_overshoot;
  const HeatLimits &l = job.heat.limits;
  const auto judge = [&](const char *what, double at, double limit, const std::string &why) {
    if (at > limit + 0.5) // K, what a thermometer tells
      v.refuse(std::string(what) + " would reach " + both_temperatures(at) + " with " +
                   held_in_words(job) + " and an overshoot of " +
                   cases::both_temperature_differences(job.heat.overshoot) + "; its limit is " +
                   both_temperatures(limit) + " (" + why + ").",
               {"less heat"});
  };
  judge("The glue line under the board", p.line, l.glue_line, l.glue_reason);
  judge("The board's surface", p.board_surface, l.surface, l.surface_reason);
  judge("The tops of the frets", p.fret_tops, l.fret_tops, l.fret_reason);
  judge("The back under the cradle", p.back_under_cradle, l.back, l.back_reason);
}

// A remote probe sees neither overshoot nor a hot spot under the iron: a second thermometer does.
void judge_probe(const Job &job, const Workbench &workbench, const ThermalHistory &heat, Verdict &v)
{
  const cases::Case &c = job.planned;
  const std::optional<double> end = end_of_heat(c);
  if (c.heater.held_by != cases::HeldBy::probe || !end)
    return;
  const LineHeat line = line_heat(workbench.model, c, heat, *end);
  v.caution("The probe does not see the line under the iron: when it shows " +
            both_temperatures(line.probe) + ", the line has " + both_temperatures(line.under_iron) +
            " there and " + both_temperatures(line.hottest) + " " + at_fret(c, line.hottest_x) +
            ", where it is hottest. Lay a second thermometer on the "
            "bar under the iron and stop when it passes " +
            both_temperatures(job.heat.with_overshoot.bar) + ".");
}

void judge_diagnosis(const PlanColumn &p, Verdict &v)
{
  const Diagnosis &d = p.diagnosis;
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
    if (samples_breathing(phase))
      all.push_back("The air of \"" + phase.name +
                    "\" changes by the hour, and it lasts longer than two weeks: what the skin of "
                    "the wood takes up and gives off is followed for one week in each quarter of "
                    "it and carried over the rest. A phase of two weeks is followed in full.");
  return all;
}

namespace
{
// What was read after a first pass, against what lines of this glue can do.
void judge_first_pass(const Job &job, Verdict &v)
{
  if (!job.first_pass)
    return;
  const LineFit &fit = *job.first_pass;
  if (fit.slower_than_any)
    v.caution("After the first pass the neck reads " + bow_in_words(fit.read) +
              ", further forward than even a slow line of this glue would leave it (" +
              bow_in_words(fit.slowest) +
              "). Look for what gave or slipped in the clamp, a bar that was cooler than read, or "
              "another glue. The plan takes the slowest line.");
  if (fit.faster_than_any)
    v.caution("After the first pass the neck reads " + bow_in_words(fit.read) +
              ", further back than even a fast line of this glue would bring it (" +
              bow_in_words(fit.fastest) +
              "). The line was hotter than thought, or it is another glue. The plan takes the "
              "fastest line: go less far, and read it while it is hot.");
}
} // namespace

namespace
{
// A fast line that nobody looks at goes too far back.
void judge_second_reading(const Job &job, Verdict &v)
{
  if (job.passes.empty() || !job.passes.front().second)
    return;
  const LetUp &fast = job.passes.front().second->faster.back();
  v.caution("Do not leave out the second hot reading, halfway through the hold: a line that turns "
            "out fast has run on by then and has to be let up. Left as it is, it would end at " +
            bow_in_words(fast.left.bow) + ", strung.");
}
} // namespace

Verdict judge_after(const Job &job, const PlanColumn &column, const Workbench &workbench,
                    const ThermalHistory &heat, const MoistureHistory *moisture)
{
  Verdict v;
  judge_job(job, workbench, heat, moisture, v);
  // A line that does not move was tried with a first guess: what that asks is no plan's matter.
  if (job.line_moves)
    judge_use(job, column, v);
  judge_places(job, v);
  judge_probe(job, workbench, heat, v);
  judge_second_reading(job, v);
  judge_first_pass(job, v);
  judge_diagnosis(column, v);
  for (const PhaseEnd &phase : column.history.phases)
    if (!phase.pull_reached && column.on_target && sets_twist(job.planned) &&
        job.planned.phases.at(phase.phase).pull.decides)
      v.caution("In phase \"" + job.planned.phases.at(phase.phase).name +
                "\" one cord goes slack before the twist asked for is reached.");
  for (const std::string &sentence : left_out_of_the_air(job.planned))
    v.caution(sentence);
  return v;
}
} // namespace overbend::solver
