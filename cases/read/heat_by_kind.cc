// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/adapt.h"

#include <algorithm>

// Values of the heater that hang on what gives the heat and on what the bar lies, where the case
// does not give them. All of them estimates [E], explained in the manual.
namespace overbend::cases
{
namespace
{
constexpr double on_frets = 60, on_wood = 400;      // W/(m^2 K)
constexpr double by_thermostat = 100, by_hand = 60; // W
constexpr double held_within = 3, by_feel = 6;      // K

// What a blanket or an iron touches by default ends where the bar does.
void place_iron(const Case &result, Heater &heater)
{
  const bool blanket = heater.source == HeatSource::blanket;
  if (result.lines.count("heater.iron_from") == 0)
    heater.iron_from = blanket ? heater.from : std::max(heater.iron_from, heater.from);
  if (result.lines.count("heater.iron_to") == 0)
    heater.iron_to = blanket ? heater.to : std::min(heater.iron_to, heater.to);
}
} // namespace

void settle_heater(Draft &draft)
{
  Heater &heater = draft.result.heater;
  const bool hand = heater.source == HeatSource::dabbed || heater.source == HeatSource::parked;
  heater.contact = draft.contact.value_or(heater.frets == BarOnFrets::in ? on_frets : on_wood);
  heater.power =
      draft.power.value_or(heater.source == HeatSource::dabbed ? by_hand : by_thermostat);
  heater.overshoot = draft.overshoot.value_or(hand ? by_feel : held_within);
  if (heater.source == HeatSource::blanket && draft.result.lines.count("heater.underside") == 0)
    heater.underside = Underside::shaped;
  place_iron(draft.result, heater);
}
} // namespace overbend::cases
