// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

#include <cmath>

namespace overbend::viz
{
std::string big_and_small(const PlanFile &plan, const std::string &pointer)
{
  return shown(plan, pointer, As::mm) + " <span class=\"thou\">" + shown(plan, pointer, As::thou) +
         "</span>";
}

namespace
{
std::string number(std::size_t value)
{
  return std::to_string(value);
}

std::string row_of_readings(const PlanFile &plan, const std::string &shape, std::size_t row,
                            bool set_by)
{
  const std::string at = shape + "/" + number(row);
  std::string out = "<tr" + std::string(set_by ? " class=\"set-by\"" : "") + "><th scope=\"row\">" +
                    shown(plan, at + "/fret", As::count) + "</th>";
  for (const char *line : {"bass", "centre", "treble"})
    out += "<td>" + big_and_small(plan, at + "/bow_" + line + "_m") + "</td>";
  return out + "</tr>\n";
}

// The rows of the frets that are worth reading.
std::string readings(const PlanFile &plan, const std::string &shape)
{
  std::string out;
  for (const Json &fret : plan.at("/frets_to_read"))
    for (std::size_t row = 0; row < plan.size(shape); ++row)
      if (plan.at(shape + "/" + number(row) + "/fret") == fret)
        out += row_of_readings(plan, shape, row, fret == plan.at("/found/bow_fret"));
  return out;
}

std::string rests(const PlanFile &plan)
{
  return shown(plan, "/found/rests", As::text);
}

bool on_wood(const PlanFile &plan)
{
  return plan.text("/found/edge_on") == "wood";
}

std::string sticks(const PlanFile &plan, const std::string &pointer)
{
  const std::string twist = "Twist: " + shown(plan, pointer, As::twist);
  if (text_of(plan.at(pointer), As::twist) == "none")
    return twist + ", sticks in line.";
  return twist + "; " + fixed_words("300 mm (12 in)") + " sticks show " +
         shown(plan, pointer, As::sticks) + ".";
}

// Of one pull of the device; one that hangs slack has nothing to be taken up.
std::string pull_turns(const PlanFile &plan, const std::string &start, std::size_t which)
{
  const std::string side = which == 0 ? "bass" : "treble", // keys of the plan, in order
      name = shown(plan, "/pulls/" + number(which), As::text);
  if (plan.at(start + "/slack/" + side).get<bool>())
    return name + " hangs slack";
  const std::string length = start + "/take_up_change_m/" + side;
  if (!plan.has("/cord_per_button_turn_m"))
    return name + " <b>" + shown(plan, length, As::length) + "</b>";
  return name + " <b>" + shown(plan, start + "/turns_change/" + side, As::turns) + "</b> (" +
         shown(plan, length, As::length) + ")";
}

std::string all_pulls(const PlanFile &plan, const std::string &start)
{
  std::string text;
  for (std::size_t k = 0; k < plan.size("/pulls"); ++k)
    text += (k > 0 ? ", " : "") + pull_turns(plan, start, k);
  return text;
}

// Its height, and what it does not do.
std::string card_block(const PlanFile &plan)
{
  if (!plan.at("/set_up/stop_block").get<bool>() ||
      plan.at("/set_up/stop_block_below_rest_m").is_null())
    return "";
  return "<p>Stop block: top " + shown(plan, "/set_up/stop_block_below_rest_m", As::length) +
         " below the resting headstock. Its height decides the bow, not the twist.</p>\n";
}
} // namespace

namespace
{
// The readings to set in a phase, fret by fret, with the edge as it lies and the turns that lead
// there.
std::string setting(const PlanFile &plan, std::size_t phase, const std::string &id,
                    const std::string &heading, const std::string &from)
{
  const std::string start = plan.phase(phase, "/at_start");
  return "<section>\n<h2 id=\"" + id + "\">" + heading + " <small>over " + rests(plan) +
         "; mm, thou</small></h2>\n<table class=\"readings\" aria-labelledby=\"" + id +
         "\">\n<thead><tr><th scope=\"col\">fret</th><th scope=\"col\">bass</th><th "
         "scope=\"col\">centre</th><th scope=\"col\">treble</th></tr></thead>\n<tbody>\n" +
         readings(plan, start + "/bow_by_fret") + "</tbody>\n</table>\n<p>" +
         (on_wood(plan) ? "Notched edge" : "Straightedge") +
         " rocks; levelled, the same gap at both ends: bass " +
         shown(plan, start + "/rocking_edge/bass/end_gap_m", As::length) + ", treble " +
         shown(plan, start + "/rocking_edge/treble/end_gap_m", As::length) + ". " +
         sticks(plan, start + "/reading/twist_rad") + "</p>\n<p>Guide, " + from + ": " +
         all_pulls(plan, start) + ". Readings decide: set it by the boxed fret.</p>\n";
}
} // namespace

std::string card_cold(const PlanFile &plan)
{
  const std::size_t cold = cold_phase(plan);
  if (cold == deciding_phase(plan))
    return setting(plan, cold, "cold", "Clamp cold to", "from just taut") + card_block(plan) +
           "</section>\n";
  const std::string start = plan.phase(cold, "/at_start");
  return "<section>\n<h2 id=\"cold\">Clamp cold <small>only straight</small></h2>\n<p>Fret " +
         shown(plan, "/found/bow_fret", As::count) + ", centre: <b>" +
         big_and_small(plan, start + "/reading/bow_centre_m") + "</b>. " +
         sticks(plan, start + "/reading/twist_rad") + " From just taut: " + all_pulls(plan, start) +
         ". See that everything holds.</p>\n</section>\n";
}

std::string card_hot(const PlanFile &plan)
{
  const std::size_t hot = deciding_phase(plan);
  if (hot == cold_phase(plan))
    return "";
  return setting(plan, hot, "hot",
                 "Hot, at " + shown(plan, plan.phase(hot, "/start_on_clock_s"), As::clock) +
                     ", set it to",
                 "from the cold setting") +
         card_block(plan) + "</section>\n";
}

namespace
{
// What the line has when the probe shows its figure.
std::string card_line(const PlanFile &plan)
{
  const std::string line = "/line_beside_probe_at_end_of_heat";
  if (!plan.has(line))
    return "";
  return "At " + shown(plan, line + "/probe_K", As::temperature) + " there the line has " +
         shown(plan, line + "/middle_K", As::temperature) + " in its middle. ";
}

std::string card_wrap(const PlanFile &plan)
{
  if (!plan.at("/set_up/back_wrapped").get<bool>())
    return "do not wrap";
  return plan.at("/set_up/foil_under_wrap").get<bool>() ? "wrapped in foil, then cloth" : "wrapped";
}
} // namespace

std::string card_heat(const PlanFile &plan)
{
  std::size_t hot = plan.n_phases();
  for (std::size_t i = 0; i < plan.n_phases(); ++i)
    if (plan.at(plan.phase(i, "/heater_on")).get<bool>() &&
        plan.at(plan.phase(i, "/cords_on")).get<bool>())
      hot = i;
  if (hot == plan.n_phases())
    return "<section>\n<h2>Heat</h2>\n<p>none</p>\n</section>\n";
  std::string out =
      "<section>\n<h2>Heat</h2>\n<table class=\"heat\">\n<thead><tr><td></td><th "
      "scope=\"col\">hold at</th><th scope=\"col\">stop at</th></tr></thead>\n<tbody>\n"
      "<tr><th scope=\"row\">bar</th><td>" +
      shown(plan,
            plan.phase(hot, plan.has(plan.phase(hot, "/bar_temperature_to_hold_K"))
                                ? "/bar_temperature_to_hold_K"
                                : "/at_end/heat/bar_K"),
            As::temperature) +
      "</td><td>" + shown(plan, "/stops/bar_never_above_K", As::temperature) + "</td></tr>\n";
  if (plan.has(plan.phase(hot, "/at_end/heat/probe_K")))
    out += "<tr><th scope=\"row\">probe</th><td>" +
           shown(plan, plan.phase(hot, "/at_end/heat/probe_K"), As::temperature) + "</td><td>" +
           shown(plan, "/stops/probe_never_above_K", As::temperature) + "</td></tr>\n";
  return out + "</tbody>\n</table>\n<p>Probe: " + shown(plan, "/set_up/probe/place", As::text) +
         ". " + card_line(plan) + "Nut " +
         (plan.at("/set_up/nut_in_its_slot").get<bool>() ? "in" : "out") + ", " + card_wrap(plan) +
         ".</p>\n</section>\n";
}
} // namespace overbend::viz
