// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/verdict.h"

#include "cases/text/units.h"
#include "materials/glue_law.h"
#include "solver/heating/heat_limits.h"
#include "solver/verdict/verdict_need.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
using cases::both_lengths;
using cases::both_temperatures;

// Rounding of a temperature given in another scale, K.
constexpr double rounding = 0.01;
// A line that keeps a stiffness above this locks whatever the temperature (bench_heat.h).
constexpr double stiff_plateau = locking_modulus;

const char *const use_level = "level the board and refret";
const char *const use_wedges = "wedge-fret it: tangs a little wider than the slots, fret by fret";
const char *const board_off = "take the board off, put in bars or a new rod, and glue it back";

// Whether the case is heated, and the hottest bar that it asks for (K); 0: the plan chooses it.
struct AskedHeat
{
  bool any = false;
  double bar = 0;
};

AskedHeat asked_heat(const cases::Case &c)
{
  AskedHeat heat;
  for (const cases::Phase &phase : c.phases)
    if (phase.heater) {
      heat.any = true;
      // Nobody holds what a parked iron lies on below its soleplate.
      if (c.heater.source == cases::HeatSource::parked)
        heat.bar = std::max(heat.bar, c.heater.iron_temperature);
      else if (!c.left_open.bar_temperature)
        heat.bar = std::max(heat.bar, phase.bar_temperature);
    }
  return heat;
}

void judge_plastic(const cases::Case &c, const materials::WorkLimits &limits, const AskedHeat &heat,
                   Verdict &v)
{
  if (!heat.any)
    return;
  if (c.binding == cases::Binding::celluloid)
    v.refuse("The binding is celluloid. It shrinks and softens in the heat this job needs, lets go "
             "of gases that burn, and once alight it feeds its own fire: it is not to be heated.",
             {use_level, use_wedges,
              "have the celluloid taken off and replaced by someone who is set up for it, then ask "
              "again"},
             Verdict::not_by_heat);
  if (c.binding == cases::Binding::unknown)
    v.caution(
        "Find out what the binding, dots and veneers are before any heat: rub hard and smell. "
        "Camphor means celluloid: then do not heat this neck at all. Take old translucent or "
        "crumbling plastic for celluloid until shown otherwise.");
  if (c.binding == cases::Binding::unknown && heat.bar > limits.hottest_unknown + rounding)
    v.refuse("The binding is not known, and " + both_temperatures(heat.bar) +
                 " at the bar is more than an unknown plastic should see (" +
                 both_temperatures(limits.hottest_unknown) + ").",
             {"find out what it is and write it into the case, or plan with a cooler bar"});
  if (c.binding == cases::Binding::plastic)
    v.caution("Plastic binding softens from about " + both_temperatures(limits.plastic_softens) +
              " on: cover it with a strip of foil and felt, and keep the bar off it.");
}

void judge_finish(const cases::Case &c, const materials::Tables &tables, const AskedHeat &heat,
                  Verdict &v)
{
  if (!heat.any)
    return;
  // The bar lies on the board: a tender finish there sets the limit as one on the neck does.
  const FinishLimit neck = finish_limit(c.finish, tables),
                    board = finish_limit(c.faces.board.kind, tables);
  const bool board_first =
      board.stop < neck.stop || (board.stop == neck.stop && board.trouble < neck.trouble);
  const FinishLimit limit = board_first ? board : neck;
  if (heat.bar > limit.stop + rounding && limit.stop < tables.limits.hottest)
    v.refuse("A bar at " + both_temperatures(heat.bar) + " is too hot for " + limit.name +
                 ": keep its surface below " + both_temperatures(limit.stop) + ".",
             {"plan with a cooler bar and a longer hold", use_level, use_wedges});
  else if (limit.trouble < tables.limits.surface_known)
    v.caution("With " + limit.name +
              " the finish prints under pads from about 40 to 45 degC (104 to 113 degF): suede or "
              "cork over film-free cloth, no vinyl or rubber, and look under the cradle pad when "
              "you read again hot.");
  const auto burns = [](cases::Finish finish) {
    return finish == cases::Finish::nitro_lacquer || finish == cases::Finish::shellac;
  };
  if (burns(c.finish) || burns(c.faces.board.kind))
    v.caution("This finish burns: no bare iron near it, no solvents or oily rags that day.");
}

void judge_glue_kind(const cases::Case &c, const materials::Tables &tables, Verdict &v)
{
  if (!c.board_glue.kind)
    return;
  const materials::Glue glue =
      materials::at_speed(tables.glue(*c.board_glue.kind, c.file), materials::LineSpeed::fast);
  if (&tables.glue(*c.board_glue.kind) == &tables.glue("one piece")) {
    v.refuse("Board and shaft are one piece: there is no glue line that could slide. Of what is "
             "clamped the wood alone keeps about a tenth, and loses a part of that again.",
             {use_level, use_wedges, "fit bars or a new rod from the back or under the frets"},
             Verdict::not_by_heat);
    return;
  }
  const bool too_hard =
      materials::softening_temperature(glue, c.room.humidity) > tables.limits.hottest;
  if (glue.plateau > stiff_plateau)
    v.refuse("The board is glued with " + glue.name + ", which never lets the board slide: " +
                 (too_hard ? "no bench heat softens it"
                           : "it only softens to a hard rubber and does not flow") +
                 ". Clamped and heated, this neck comes back to where it was.",
             {use_level, use_wedges, board_off}, Verdict::not_by_heat);
}

void judge_damage(const cases::Case &c, Verdict &v)
{
  if (c.found.open_crack)
    v.refuse("There is an open crack in shaft, headstock or heel: it would run under the clamp "
             "before the neck moves.",
             {"close and glue the crack, let it cure, measure again and ask again"});
  // What a seized rod holds is told by its pull.
  if (c.found.rod_loaded && c.neck.rod.state != cases::RodState::seized)
    v.refuse("The rod was loaded while the bows were read: what the rod holds and what the neck "
             "does cannot be told apart, and a loaded rod works against the clamp.",
             {"slacken the rod first (glasses on), let the neck come to rest for a day and read "
              "again"});
  if (c.found.angle_only)
    v.refuse("The board is straight and only the angle or the string height is wrong: that is not "
             "a bow, and heat and clamping will not cure it.",
             {"a neck reset, a shim in the pocket, or work on the bridge"}, Verdict::not_by_heat);
  for (const cases::Phase &phase : c.phases)
    if (phase.heater && phase.strings)
      v.refuse("The strings are on while the bar is hot (phase \"" + phase.name +
                   "\"): this is how necks get their bow.",
               {"take the strings off for every phase with heat"});
}
} // namespace

Verdict refuse_before(const cases::Case &c, const materials::Tables &tables)
{
  Verdict v;
  const AskedHeat heat = asked_heat(c);
  judge_damage(c, v);
  judge_plastic(c, tables.limits, heat, v);
  judge_finish(c, tables, heat, v);
  judge_glue_kind(c, tables, v);
  judge_need(c, tables.limits, v);
  if (v.refused())
    return v; // what to look out for while doing it does not matter
  if (!c.board_glue.kind)
    v.caution("The glue is not known. A slow, a middle and a fast line are all run; warm the neck "
              "free first "
              "(half an hour, no cords, no strings) and read again: what it moves by itself tells "
              "which one it is.");
  if (!c.found.twist)
    v.caution("The twist was not measured and is taken as none: lay winding sticks on it first.");
  for (const std::string &sentence : set_up_cautions(c))
    v.caution(sentence);
  return v;
}

} // namespace overbend::solver
