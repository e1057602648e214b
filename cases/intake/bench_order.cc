// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/bench_order.h"

#include <algorithm>
#include <set>

namespace overbend::cases
{
namespace
{
struct Place
{
  const char *section, *caution;
  bool at_the_bench;
};

// Order of the trade [E]: what happened, what can be seen, what must be slack, readings, sizes.
const std::vector<Place> &places()
{
  static const std::vector<Place> order = {
      {"", "", true},
      {"warp", "", true},
      {"finish",
       "Old translucent plastic counts as celluloid until shown otherwise: never heat it. Nitro "
       "lacquer burns too. Try solvents only out of sight, and never near an iron.",
       true},
      {"room", "", true},
      {"neck", "", true},
      {"rod",
       "Strings down first. Glasses on, slacken the rod an eighth of a turn at a time: a nut or a "
       "rod may let go. Never tighten a rod that is at its stop.",
       true},
      {"readings", "", true},
      {"found",
       "Let the strings down slowly, both sides in turn, glasses on. Look for cracks in "
       "headstock and heel with a lamp before any load: with an open crack no clamp and no heat.",
       true},
      {"glue", "", true},
      {"shaft", "Some dusts harm and some woods are protected: follow local rules.", true},
      {"board", "", true},
      {"headstock", "", true},
      {"heel", "", true},
      {"strings", "", true},
      {"tuners", "", true},
      {"target", "", true},
      {"bench",
       "Cords under load: glasses on, stay out of their line, let go slowly, both sides in turn. "
       "Pad the body at the neck block, not in the middle of a plate.",
       false},
      {"heater",
       "Never leave an iron alone. Dry, on an earth-leakage breaker, with a second thermometer, "
       "an extinguisher and a metal tray at hand. Camphor, varnish or acrid smell: stop, air.",
       false},
      {"probe", "", false},
      {"schedule", "", false},
      {"moisture", "", false},
  };
  return order;
}

// What decides a plan and differs from neck to neck [E].
const std::set<std::string> &needed()
{
  static const std::set<std::string> keys = {
      "preset",        "warp.cause",       "warp.temperature", "warp.hot_time",
      "warp.kept_in",  "warp.pull_time",   "finish.kind",      "finish.binding",
      "room.humidity", "neck.nut_width",   "neck.depth_at_1",  "neck.depth_at_12",
      "rod.state",     "found.open_crack", "found.bow",        "found.twist",
      "glue.board",    "shaft.wood",       "board.wood",       "strings.set",
      "tuners.layout", "target.relief",    "neck.scale_length"};
  return keys;
}

BenchSection section_of(const SectionNote &note, const std::string &caution, bool at_the_bench)
{
  // The top of the file is a place in a file, nothing on a bench.
  const std::string sentence = note.name.empty() ? "" : note.sentence;
  BenchSection section{note.name, sentence, caution, {}, at_the_bench};
  for (const Declaration &declaration : declarations())
    if (declaration.section == note.name)
      section.fields.push_back(&declaration);
  std::stable_partition(section.fields.begin(), section.fields.end(),
                        [](const Declaration *field) { return field->kind == Kind::fret; });
  return section;
}
} // namespace

const std::vector<BenchSection> &bench_order()
{
  static const std::vector<BenchSection> order = [] {
    std::vector<BenchSection> sections;
    for (const Place &place : places())
      for (const SectionNote &note : section_notes())
        if (note.name == place.section)
          sections.push_back(section_of(note, place.caution, place.at_the_bench));
    const auto has = [&](const std::string &name) {
      return std::any_of(sections.begin(), sections.end(),
                         [&](const BenchSection &section) { return section.name == name; });
    };
    for (const SectionNote &note : section_notes())
      if (!is_repeated(note.name) && !has(note.name))
        sections.push_back(section_of(note, "", false));
    return sections;
  }();
  return order;
}

bool is_needed(const Declaration &declaration)
{
  return needed().count(declaration.name()) > 0;
}

std::string label_of(const Declaration &declaration)
{
  std::string label = declaration.key;
  std::replace(label.begin(), label.end(), '_', ' ');
  return label;
}

std::string in_both(const Declaration &declaration, const std::string &text)
{
  if (declaration.kind != Kind::month)
    return typed_in_both(text, declaration.dimension);
  const std::size_t comma = std::min(text.find(','), text.size());
  return typed_in_both(text.substr(0, comma), Dimension::temperature) + text.substr(comma);
}

const std::vector<std::string> &intake_cautions()
{
  static const std::vector<std::string> cautions = {
      "The program estimates; it does not order. Heat and load can break a neck, burn and set "
      "fire.",
      "Strings and rod slack first. Never heat celluloid, a cracked neck, or near solvents; never "
      "leave an iron alone.",
      "Follow local rules for fire, electricity, dust and protected woods, and leave to a licensed "
      "or trained hand what you are not trained for.",
  };
  return cautions;
}
} // namespace overbend::cases
