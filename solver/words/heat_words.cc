// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/heat_words.h"

#include "cases/text/units.h"
#include "solver/words/places.h"

namespace overbend::solver
{
using cases::both_temperatures;

std::string how_heat_is_held(const cases::Case &the_case, const cases::Phase &phase)
{
  const cases::Heater &h = the_case.heater;
  const std::string bar = both_temperatures(phase.bar_temperature),
                    read = ", read " + at_fret(the_case, h.bar_sensor) + ".";
  if (h.source == cases::HeatSource::parked)
    return "Leave the iron there, its soleplate at " + both_temperatures(h.iron_temperature) +
           " by its own thermostat.";
  const bool by_hand = h.source == cases::HeatSource::dabbed;
  const std::string first = by_hand ? "Dab the iron on by hand. " : "";
  if (h.held_by == cases::HeldBy::bar)
    return first + "Hold the bar at " + bar + read;
  return first + "Bring the probe to " + both_temperatures(the_case.probe.hold_at) +
         " and hold it there: look at both thermometers every two minutes and change the heat "
         "little by little. The bar is never to pass " +
         bar + read;
}

std::string heat_in_short(const cases::Case &the_case, const cases::Phase &phase)
{
  const cases::Heater &h = the_case.heater;
  if (h.source == cases::HeatSource::parked)
    return "Iron parked at " + both_temperatures(h.iron_temperature);
  const std::string bar = both_temperatures(phase.bar_temperature);
  if (h.held_by == cases::HeldBy::bar)
    return "Bar at " + bar;
  return "Probe at " + both_temperatures(the_case.probe.hold_at) + ", bar never above " + bar + ",";
}

std::string wrap_in_words(const cases::Case &the_case)
{
  return std::string("Wrap ") +
         (the_case.schedule.wrap_foil ? "kitchen foil and then dry cloth" : "dry cloth") +
         " around all wood that the bar does not cover: back, headstock, sides and ends of the "
         "board. Never over bar or iron.";
}
} // namespace overbend::solver
