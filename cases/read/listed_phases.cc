// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/listed_phases.h"

#include "cases/case/climate.h"
#include "cases/case/humid_air.h"
#include "cases/declare/phases.h"
#include "cases/read/read_entries.h"
#include "cases/text/error.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
std::string unique_name(const std::string &wanted, const std::vector<Phase> &before)
{
  const auto taken = [&](const std::string &name) {
    return std::any_of(before.begin(), before.end(),
                       [&](const Phase &phase) { return phase.name == name; });
  };
  std::string name = wanted;
  for (int number = 2; taken(name); ++number)
    name = wanted + " " + std::to_string(number);
  return name;
}

[[noreturn]] void refuse_entry(const Draft &draft, const Section &section, const char *key,
                               const std::string &what, const std::string &remedy)
{
  const Entry *entry = find_entry(section, key);
  throw CaseError(draft.result.file, entry != nullptr ? entry->line : section.line, what, remedy);
}

// Air given by a dew point, or by a temperature alone: then it keeps its water.
void set_humidity(const Section &section, const Air &before, Draft &draft)
{
  Air &air = draft.phase.air;
  const bool humidity_given = find_entry(section, "humidity") != nullptr;
  if (!draft.phase_dew_point) {
    if (!humidity_given)
      air.humidity = humidity_after(before.humidity, before.temperature, air.temperature);
    return;
  }
  if (humidity_given)
    refuse_entry(draft, section, "dew_point", "the air has a humidity and a dew point",
                 "leave one of them out");
  air.humidity = humidity_at(air.temperature, *draft.phase_dew_point);
  if (air.humidity > 1)
    refuse_entry(draft, section, "dew_point",
                 "the dew point " + both_temperatures(*draft.phase_dew_point) +
                     " lies above the air's temperature " + both_temperatures(air.temperature),
                 "check both; air at its dew point is fog");
}

void set_climate(const Section &section, Draft &draft)
{
  Phase &phase = draft.phase;
  if (phase.kind != PhaseKind::play) {
    for (const char *key : {"month", "climate_file", "climate_repeats"})
      if (find_entry(section, key) != nullptr)
        refuse_entry(draft, section, key, std::string("`") + key + "` is for phases that play",
                     "write kind = \"play\", or leave it out");
    return;
  }
  for (const char *key : {"air_temperature", "humidity", "dew_point"})
    if (find_entry(section, key) != nullptr)
      refuse_entry(draft, section, key, "the air of this phase changes, yet one value is given",
                   "leave it out, and give the air by [climate] or by climate_file");
  if (phase.climate.file.empty()) {
    phase.climate = indoor_climate(draft.result, phase.climate.month);
  } else {
    const std::string path = beside(draft.result.file, phase.climate.file);
    std::string text;
    try {
      text = read_text(path);
    } catch (const CaseError &error) {
      refuse_entry(draft, section, "climate_file",
                   "climate_file \"" + phase.climate.file + "\": " + error.problem, error.remedy);
    }
    parse_climate(text, path, phase.climate);
    const double end = phase.climate.points.back().time;
    if (!phase.climate.repeats && end < phase.duration * (1 - 1e-12))
      refuse_entry(draft, section, "climate_file",
                   "the table ends after " + clock(end) + ", but the phase lasts " +
                       clock(phase.duration),
                   "write climate_repeats = true, or shorten the phase");
  }
  take_first_air(phase);
}
} // namespace

std::vector<Phase> listed_phases(const Document &document, Draft &draft)
{
  constexpr std::size_t most_phases = 500;
  std::vector<Phase> phases;
  for (const Section &section : document.sections) {
    if (section.name != "phase")
      continue;
    if (phases.size() == most_phases)
      throw CaseError(document.file, section.line, "there are more than 500 phases",
                      "leave some out");
    const Entry *kind = find_entry(section, "kind");
    if (kind == nullptr)
      throw CaseError(document.file, section.line, "the phase has no `kind`",
                      "write what is done, such as kind = \"clamp\"");
    draft.phase = Phase();
    draft.phase_dew_point.reset();
    store_entry(document.file, *find_declaration("phase", "kind"), *kind, draft);
    const Phase before = phases.empty() ? bare_bench(draft.result) : phases.back();
    draft.phase = next_phase(before, draft.phase.kind, draft.result, draft.result.schedule.wrap);
    draft.phase.line = section.line;
    const Air inherited = draft.phase.air;
    if (find_entry(section, "duration") == nullptr)
      throw CaseError(document.file, section.line, "the phase has no `duration`",
                      "write how long it lasts, such as duration = \"25 min\"");
    for (const Entry &entry : section.entries)
      store_entry(document.file, *find_declaration("phase", entry.key), entry, draft);
    // Heat that is put out holds no temperature.
    if (!draft.phase.heater && find_entry(section, "bar_temperature") == nullptr)
      draft.phase.bar_temperature = 0;
    if (draft.phase.kind != PhaseKind::play)
      set_humidity(section, inherited, draft);
    set_climate(section, draft);
    const bool named = !draft.phase.name.empty();
    draft.phase.name = unique_name(named ? draft.phase.name : word(draft.phase.kind), phases);
    phases.push_back(draft.phase);
  }
  count_passes(phases);
  mark_deciding_pulls(phases);
  return phases;
}
} // namespace overbend::cases
