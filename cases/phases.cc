// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/phases.h"

#include "cases/climate.h"
#include "cases/error.h"
#include "cases/humid_air.h"
#include "cases/read_entries.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
// A broken or seized rod stays so whatever is done; only a working one can be set or slackened.
RodState rod_when(RodState wanted, const Rod &rod)
{
  if (rod.kind == RodKind::none || rod.kind == RodKind::bonded_bar)
    return RodState::slack;
  const bool dead = rod.state == RodState::broken || rod.state == RodState::seized;
  return dead ? rod.state : wanted;
}

void clear_clamp(Phase &phase)
{
  phase.cradle = phase.cords = phase.block = false;
}

void heat_up(Phase &phase, const Case &result, bool wrap)
{
  phase.heater = true;
  phase.bar_temperature =
      result.heater.source == HeatSource::parked ? 0 : result.heater.bar_temperature;
  // A bar that reaches over the nut's slot lies where the nut would be.
  if (result.heater.from < 0)
    phase.nut = false;
  phase.air.wrapped = phase.air.wrapped || wrap;
}

void cool_down(Phase &phase)
{
  phase.heater = false;
  phase.bar_temperature = 0;
}

Phase carried_over(const Phase &before, PhaseKind kind, const Air &room)
{
  Phase phase = before;
  phase.climate = Climate();
  if (before.kind == PhaseKind::play) { // back in the shop
    phase.air.temperature = room.temperature;
    phase.air.humidity = room.humidity;
  }
  phase.kind = kind;
  phase.name.clear();
  phase.duration = 0;
  phase.line = 0;
  phase.pull = Pull();
  return phase;
}

void take_first_air(Phase &phase)
{
  const Air first = air_at(phase, 0);
  phase.air.temperature = first.temperature;
  phase.air.humidity = first.humidity;
}

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
} // namespace

std::string word(PhaseKind kind)
{
  return find_declaration("phase", "kind")->words[static_cast<std::size_t>(kind)];
}

Phase bare_bench(const Case &result)
{
  Phase phase;
  phase.air = result.room;
  phase.rod = rod_when(RodState::slack, result.neck.rod);
  return phase;
}

Phase next_phase(const Phase &before, PhaseKind kind, const Case &result, bool wrap)
{
  Phase phase = carried_over(before, kind, result.room);
  switch (kind) {
  case PhaseKind::store:
  case PhaseKind::condition:
    clear_clamp(phase);
    cool_down(phase);
    break;
  case PhaseKind::clamp:
    phase.cradle = phase.cords = true;
    phase.block = result.bench.stop_block;
    phase.pull.kind = Pull::Kind::to_reading;
    break;
  case PhaseKind::heat:
    heat_up(phase, result, wrap);
    break;
  case PhaseKind::reread:
    phase.pull.kind = Pull::Kind::to_reading;
    break;
  case PhaseKind::cool:
    cool_down(phase);
    break;
  case PhaseKind::release:
    clear_clamp(phase);
    cool_down(phase);
    phase.air.wrapped = false;
    break;
  case PhaseKind::hold:
    break;
  case PhaseKind::rest: // nobody leaves the iron on a neck that rests
    cool_down(phase);
    break;
  case PhaseKind::string_up:
    phase.strings = phase.nut = true;
    phase.rod = rod_when(result.target.rod, result.neck.rod);
    break;
  case PhaseKind::warm_free:
    clear_clamp(phase);
    phase.strings = false;
    heat_up(phase, result, wrap);
    break;
  case PhaseKind::play:
    clear_clamp(phase);
    cool_down(phase);
    phase.air.wrapped = false;
    break;
  }
  return phase;
}

// A neck is clamped anew: the next pass begins.
void count_passes(std::vector<Phase> &phases)
{
  int pass = 0;
  for (std::size_t i = 0; i < phases.size(); ++i) {
    const bool clamped_before = i > 0 && phases[i - 1].cords;
    pass += phases[i].cords && !clamped_before;
    phases[i].pass = std::max(1, pass);
  }
}

// A pull decides unless a hot one follows while the neck stays clamped.
void mark_deciding_pulls(std::vector<Phase> &phases)
{
  bool hot_follows = false;
  for (auto phase = phases.rbegin(); phase != phases.rend(); ++phase) {
    if (!phase->cords)
      hot_follows = false;
    if (phase->pull.kind != Pull::Kind::to_reading)
      continue;
    phase->pull.decides = phase->heater || !hot_follows;
    hot_follows = hot_follows || phase->heater;
  }
}

namespace
{
// Adds phases one after the other, each with what the one before left on the bench.
class Scheduler
{
public:
  explicit Scheduler(const Case &the_case) : result(the_case), schedule(the_case.schedule) {}

  std::vector<Phase> all(int passes)
  {
    if (schedule.warm_free)
      warm_free();
    for (int pass = 1; pass <= passes; ++pass)
      correct(pass);
    const double strung = result.target.after_release - schedule.release - schedule.rest;
    add(PhaseKind::string_up, strung, "string up");
    if (schedule.play > 0) {
      Phase &play = add(PhaseKind::play, schedule.play, "play");
      play.climate = indoor_climate(result, schedule.month);
      take_first_air(play);
    }
    count_passes(phases);
    mark_deciding_pulls(phases);
    return std::move(phases);
  }

private:
  Phase &add(PhaseKind kind, double duration, const std::string &name)
  {
    const Phase before = phases.empty() ? bare_bench(result) : phases.back();
    Phase phase = next_phase(before, kind, result, schedule.wrap);
    phase.duration = duration;
    phase.name = name;
    phases.push_back(phase);
    return phases.back();
  }

  void warm_free()
  {
    constexpr double cooled_free = 2 * 3600; // to within 1 K of the room for a bare neck [E]
    add(PhaseKind::warm_free, schedule.warm_free_time, "warm free");
    add(PhaseKind::cool, cooled_free, "cool free").air.wrapped = false;
  }

  void correct(int pass)
  {
    const std::string which = pass > 1 ? ", pass " + std::to_string(pass) : "";
    add(PhaseKind::clamp, schedule.clamp, "clamp cold" + which).nut = schedule.nut;
    add(PhaseKind::heat, schedule.heat, "heat" + which);
    if (schedule.reread)
      add(PhaseKind::reread, schedule.reread_time, "read again hot" + which);
    add(PhaseKind::hold, schedule.hold, "hold" + which);
    add(PhaseKind::cool, schedule.cool, "cool in the clamp" + which);
    add(PhaseKind::release, schedule.release, "release" + which);
    add(PhaseKind::rest, schedule.rest, "rest" + which);
  }

  const Case &result;
  const Schedule &schedule;
  std::vector<Phase> phases;
};
} // namespace

std::vector<Phase> scheduled_phases(const Case &result, int passes)
{
  return Scheduler(result).all(passes);
}

namespace
{
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
