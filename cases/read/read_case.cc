// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"

#include "cases/case/climate.h"
#include "cases/case/humid_air.h"
#include "cases/check/check_case.h"
#include "cases/check/checking.h"
#include "cases/declare/phases.h"
#include "cases/declare/presets.h"
#include "cases/read/adapt.h"
#include "cases/read/laminations.h"
#include "cases/read/listed_phases.h"
#include "cases/read/read_entries.h"
#include "cases/read/set_up_open.h"
#include "cases/text/document.h"
#include "cases/text/suggest.h"

#include <cmath>

namespace overbend::cases
{
namespace
{
const Entry *find_in(const Document &document, const Declaration &declaration)
{
  if (declaration.section.empty()) {
    for (const Entry &entry : document.top)
      if (entry.key == declaration.key)
        return &entry;
    return nullptr;
  }
  for (const Section &section : document.sections)
    if (section.name == declaration.section)
      return find_entry(section, declaration.key);
  return nullptr;
}

std::map<std::string, int> lines_of(const Document &document)
{
  std::map<std::string, int> lines;
  for (const Entry &entry : document.top)
    lines[entry.key] = entry.line;
  std::map<std::string, int> items;
  for (const Section &section : document.sections) {
    const std::string name = section.listed
                                 ? section.name + "[" + std::to_string(++items[section.name]) + "]"
                                 : section.name;
    lines[name] = section.line;
    for (const Entry &entry : section.entries)
      lines[name + "." + entry.key] = entry.line;
  }
  return lines;
}

// The document of the preset that the case names; empty if it names none.
Document preset_document(const Document &document)
{
  for (const Entry &entry : document.top) {
    if (entry.key != "preset" || plain_word(entry.text) == "none")
      continue;
    if (const Preset *preset = find_preset(entry.text))
      return parse_document(preset->text, "preset " + preset->name);
    std::vector<std::string> names;
    for (const Preset &preset : presets())
      names.push_back(preset.name);
    throw CaseError(document.file, entry.line, "there is no preset \"" + entry.text + "\"",
                    suggestion(entry.text, names, "presets"));
  }
  return {};
}

[[noreturn]] void refuse_missing(const Declaration &declaration, const Draft &draft)
{
  const std::string &example = declaration.example;
  std::string remedy = "write it, or name a preset that has it";
  if (declaration.to_be_given)
    remedy = "write what the bench shows, such as " + declaration.key + " = \"" + example + "\"";
  throw CaseError(draft.result.file, line_of(draft.result, declaration.name()),
                  "`" + declaration.name() + "` is missing", remedy);
}

void read_values(const Document &document, const Document &preset, Draft &draft)
{
  for (const Declaration &declaration : declarations()) {
    if (is_repeated(declaration.section))
      continue;
    if (const Entry *entry = find_in(document, declaration))
      store_entry(document.file, declaration, *entry, draft);
    else if (const Entry *given = find_in(preset, declaration))
      // Only a position may fail here, for its frets may not exist on a board of the case.
      store_entry(document.file, declaration,
                  {given->key, given->text, line_of(draft.result, "neck.frets")}, draft);
    else if (!declaration.preset_or.empty())
      store_entry(document.file, declaration,
                  {declaration.key, declaration.preset_or, line_of(draft.result, "neck.frets")},
                  draft);
    else
      refuse_missing(declaration, draft);
  }
}

// Fret nearest to the middle, by length, between the rest frets.
int middle_fret(const NeckShape &neck, int from, int to)
{
  const double middle =
      (fret_position(neck.scale_length, from) + fret_position(neck.scale_length, to)) / 2;
  int best = from;
  for (int fret = from; fret <= to; ++fret)
    if (std::abs(fret_position(neck.scale_length, fret) - middle) <
        std::abs(fret_position(neck.scale_length, best) - middle))
      best = fret;
  return best;
}

// Humidity of the room from its dew point.
void resolve_room(Draft &draft)
{
  if (!draft.room_dew_point)
    return;
  Case &result = draft.result;
  if (result.lines.count("room.humidity") > 0)
    refuse(result, "room.dew_point", "the air of the room has a humidity and a dew point",
           "leave one of them out");
  result.room.humidity = humidity_at(result.room.temperature, *draft.room_dew_point);
  constexpr double driest = 0.05, dampest = 0.98;
  if (result.room.humidity < driest || result.room.humidity > dampest)
    refuse(result, "room.dew_point",
           "this dew point is a relative humidity of " +
               short_text(std::round(1000 * result.room.humidity) / 1000, Dimension::fraction) +
               " at " + both_temperatures(result.room.temperature),
           "check both; the humidity must lie between 5 and 98 %");
}

void resolve_finish(Case &result)
{
  FinishedFaces &faces = result.faces;
  faces.back.kind = result.finish;
  if (faces.headstock.kind == Finish::unknown)
    faces.headstock.kind = faces.back.kind;
}

// Posts in line pull on one side alone and set no twist: a bar across the headstock does.
void resolve_device(Draft &draft)
{
  Bench &bench = draft.result.bench;
  if (draft.device > 0)
    bench.device = static_cast<Device>(draft.device - 1);
  else
    bench.device = bench.posts.empty() && draft.result.tuners.layout != TunerLayout::both_sides
                       ? Device::headstock_bar
                       : Device::posts;
}

void resolve(Draft &draft)
{
  Case &result = draft.result;
  resolve_room(draft);
  resolve_finish(result);
  resolve_device(draft);
  settle_heater(draft);
  resolve_past(result, draft.lived_for);
  Found &found = result.found;
  found.bow_bass = draft.bow_bass.value_or(found.bow_centre);
  found.bow_treble = draft.bow_treble.value_or(found.bow_centre);
  if (found.rest_fret_b == 0)
    found.rest_fret_b = result.neck.join_fret;
  if (found.bow_fret == 0)
    found.bow_fret = middle_fret(result.neck, found.rest_fret_a, found.rest_fret_b);
  if (plain_word(result.strings_found.set) == "as set")
    result.strings_found.set = result.strings.set;
  result.strings_found.height_at_nut = result.strings.height_at_nut;
  result.strings_found.height_at_join = result.strings.height_at_join;
  result.neck.headstock.piece.swelling_along =
      draft.headstock_swelling.value_or(result.neck.shaft.swelling_along);
  run_strips_on(result);
  if (plain_word(result.neck.headstock.piece.wood) == "as shaft")
    result.neck.headstock.piece.wood = result.neck.shaft.wood;
  if (const Preset *preset = find_preset(result.preset))
    result.preset = preset->name;
  drop_what_the_kinds_do_not_have(result);
}

} // namespace

Case parse_case(const std::string &text, const std::string &file)
{
  const Document document = parse_document(text, file);
  check_known(document);
  Draft draft;
  draft.result.file = file;
  draft.result.text = text;
  draft.result.lines = lines_of(document);
  read_values(document, preset_document(document), draft);
  draft.result.neck.laminations = listed_laminations(document, draft);
  resolve(draft);
  check_case(draft.result);
  const bool listed = draft.result.lines.count("phase[1]") > 0;
  if (listed && draft.result.lines.count("schedule") > 0)
    throw CaseError(file, line_of(draft.result, "schedule"),
                    "[schedule] and [[phase]] stand in the same case", "keep one of the two");
  if (!listed)
    check_schedule(draft.result);
  draft.result.phases_listed = listed;
  draft.result.left_open = left_open(draft.result);
  draft.result.phases = listed ? listed_phases(document, draft) : scheduled_phases(draft.result);
  check_phases(draft.result);
  return draft.result;
}

Case read_case(const std::string &path)
{
  return parse_case(read_text(path), path);
}

Case preset_case(const std::string &preset)
{
  const std::string bow = find_declaration("found", "bow")->example;
  return parse_case("preset = \"" + preset + "\"\n[found]\nbow = \"" + bow + "\"\n",
                    "preset " + preset);
}
} // namespace overbend::cases
