// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/show/to_text.h"

#include "cases/declare/declarations.h"
#include "cases/read/laminations.h"

namespace overbend::cases
{
namespace
{
// A bar temperature is a value only while the heat is on and held, a climate only in play, and one
// air only outside of it.
bool means_nothing(const Declaration &declaration, const Draft &draft)
{
  if (declaration.name() == "moisture.climate_file")
    return draft.result.moisture.past.file.empty();
  // Where the strips of the shaft run on through the scarf, it has no wood and grain of its own.
  if (declaration.section == "headstock" && draft.result.neck.headstock.laminated)
    return declaration.key == "wood" || declaration.key.rfind("grain", 0) == 0 ||
           declaration.key.rfind("run_out", 0) == 0 || declaration.key == "swelling_along";
  const bool parked = draft.result.heater.source == HeatSource::parked;
  if (declaration.section == "heater")
    return parked && (declaration.key == "power" || declaration.key == "bar_temperature");
  if (declaration.section != "phase")
    return false;
  const std::string &key = declaration.key;
  const bool plays = draft.phase.kind == PhaseKind::play;
  if (key == "bar_temperature")
    return !draft.phase.heater || parked;
  if (key == "month" || key == "climate_repeats")
    return !plays;
  if (key == "climate_file")
    return !plays || draft.phase.climate.file.empty();
  return plays && (key == "air_temperature" || key == "humidity" || key == "dew_point");
}

std::string section_text(const std::string &section, Draft &draft)
{
  std::string text;
  for (const Declaration &declaration : declarations())
    if (declaration.section == section && !means_nothing(declaration, draft))
      text += declaration.key + " = " + toml_value(declaration, show(declaration, draft)) + "\n";
  return text;
}

std::string laminations_text(Draft &draft)
{
  std::string text;
  for (const Lamination &strip : draft.result.neck.laminations) {
    draft.lamination = as_draft(strip);
    text += "\n[[lamination]]\n" + section_text("lamination", draft);
  }
  return text;
}
} // namespace

std::string to_text(const Case &result)
{
  Draft draft;
  draft.result = result;
  draft.bow_bass = result.found.bow_bass;
  draft.device = 1 + static_cast<int>(result.bench.device);
  const Headstock &head = result.neck.headstock;
  if (head.kind == HeadstockKind::scarf && !head.laminated)
    draft.headstock_swelling = result.neck.headstock.piece.swelling_along;
  draft.bow_treble = result.found.bow_treble;
  draft.contact = result.heater.contact;
  draft.power = result.heater.power;
  draft.overshoot = result.heater.overshoot;
  if (result.moisture.humidity || result.moisture.climate_to > 0)
    draft.lived_for = result.moisture.lived_for;
  std::string text;
  for (const SectionNote &note : section_notes()) {
    if (note.name == "lamination")
      text += laminations_text(draft);
    if (note.name == "schedule" || is_repeated(note.name))
      continue;
    if (!note.name.empty())
      text += "\n[" + note.name + "]\n";
    text += section_text(note.name, draft);
  }
  for (const Phase &phase : result.phases) {
    draft.phase = phase;
    text += "\n[[phase]]\n" + section_text("phase", draft);
  }
  return text;
}
} // namespace overbend::cases
