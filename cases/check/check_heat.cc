// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/checking.h"
#include "cases/text/units.h"

namespace overbend::cases
{
namespace
{
constexpr double shortest_bar = 20e-3, shortest_iron = 5e-3; // [E]

void check_bar(const Case &result)
{
  const Heater &heater = result.heater;
  if (heater.from >= heater.to)
    refuse_any(result, {"heater.from", "heater.to"}, "the bar ends before it begins",
               "`from` is its end at the nut, `to` its end at the body");
  if (heater.to - heater.from < shortest_bar)
    refuse_any(result, {"heater.from", "heater.to"},
               "a bar of " + both_lengths(heater.to - heater.from) + " heats no neck",
               "give its two ends; it is at least " + both_lengths(shortest_bar) + " long");
  if (heater.to > board_end(result.neck))
    refuse(result, "heater.to",
           "the bar reaches " + both_lengths(heater.to) + " from the nut, beyond the board (" +
               both_lengths(board_end(result.neck)) + ")",
           "let it end on the board");
  if (heater.iron_from >= heater.iron_to)
    refuse_any(result, {"heater.iron_from", "heater.iron_to"}, "the iron ends before it begins",
               "`iron_from` is its end at the nut, `iron_to` its end at the body");
  if (heater.iron_to - heater.iron_from < shortest_iron)
    refuse_any(result, {"heater.iron_from", "heater.iron_to"},
               "an iron of " + both_lengths(heater.iron_to - heater.iron_from) + " heats no bar",
               "give the two ends of what it touches, at least " + both_lengths(shortest_iron) +
                   " apart");
  if (heater.iron_from < heater.from || heater.iron_to > heater.to)
    refuse_any(result, {"heater.iron_from", "heater.iron_to", "heater.from", "heater.to"},
               "the iron hangs over the end of the bar",
               "set iron_from and iron_to within the bar");
  if (heater.bar_sensor < heater.from || heater.bar_sensor > heater.to)
    refuse_any(result, {"heater.bar_sensor", "heater.from", "heater.to"},
               "the thermometer of the bar is off the bar", "put it between the ends of the bar");
}

void check_parked(const Case &result)
{
  if (result.heater.source != HeatSource::parked)
    return;
  for (const std::string key : {"power", "bar_temperature"})
    if (result.lines.count("heater." + key) > 0)
      refuse(result, "heater." + key,
             "`" + key + "` is held by nobody: a parked iron holds its own soleplate",
             "leave it out and give iron_temperature and iron_contact, or write another source");
  if (result.heater.held_by == HeldBy::probe)
    refuse_any(result, {"heater.held_by", "heater.source"},
               "a parked iron holds its own soleplate, not what the probe shows",
               "write source = \"dabbed\" or \"thermostat\", or held_by = \"bar\"");
  if (result.heater.iron_temperature <= result.room.temperature)
    refuse_any(result, {"heater.iron_temperature", "room.temperature"},
               "the iron (" + both_temperatures(result.heater.iron_temperature) +
                   ") is no warmer than the room (" + both_temperatures(result.room.temperature) +
                   ")",
               "give the temperature of its soleplate");
}

void check_held(const Case &result)
{
  const Heater &heater = result.heater;
  if (heater.source != HeatSource::parked && heater.bar_temperature <= result.room.temperature)
    refuse_any(result, {"heater.bar_temperature", "room.temperature"},
               "the bar (" + both_temperatures(heater.bar_temperature) +
                   ") is no warmer than the room (" + both_temperatures(result.room.temperature) +
                   ")",
               "give the temperature that the bar is to hold");
  const double shown = result.probe.hold_at;
  if (heater.held_by == HeldBy::bar)
    return;
  if (shown <= result.room.temperature)
    refuse_any(result, {"probe.hold_at", "room.temperature"},
               "the probe is to show " + both_temperatures(shown) + ", no more than the room (" +
                   both_temperatures(result.room.temperature) + ")",
               "give the temperature that the probe is to show");
  if (shown >= heater.bar_temperature)
    refuse_any(result, {"heater.bar_temperature", "probe.hold_at"},
               "the bar never passes " + both_temperatures(heater.bar_temperature) +
                   ", so the probe under it never shows " + both_temperatures(shown),
               "give the bar more, as bar_temperature, or let the probe show less");
}

void check_probe(const Case &result)
{
  const NeckShape &neck = result.neck;
  const Probe &probe = result.probe;
  if (probe.x < 0 || probe.x > board_end(neck))
    refuse(result, "probe.position", "the probe is off the board",
           "put it between the nut and the end of the board");
  if (probe.height > neck.board_thickness || probe.height < -shaft_depth(neck, probe.x))
    refuse(result, "probe.height",
           "the probe is outside the neck, " + both_lengths(probe.height) + " above the glue line",
           "0 is the glue line, the thickness of the board is its top, below is negative");
}
} // namespace

void check_heat(const Case &result)
{
  check_bar(result);
  check_parked(result);
  check_held(result);
  check_probe(result);
}
} // namespace overbend::cases
