// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/show/manual.h"

#include "cases/declare/declarations.h"
#include "cases/declare/presets.h"
#include "cases/text/document.h"
#include "cases/text/suggest.h"

namespace overbend::cases
{
namespace
{
constexpr const char *introduction = R"(# Case files

<!-- Made from the table of declarations; a test compares it. Change the table, not this file. -->

A case file says what the bench knows about one neck and what is to be done. It is a text file in
TOML: `[section]`, then `key = "value"`, and `#` before a remark. A case is short, for everything
it does not say comes from its preset and then from the defaults below.

```toml
title = "left in a hot van"
preset = "electric"

[found]
bow = "1.1 mm"
twist = "0.6 deg"

[warp]
cause = "hot strung"
```

**Cautions.** The program estimates; it does not order. Heat and load can break a neck, burn and
set fire: slacken the strings first, never heat celluloid or a cracked neck, never leave an iron
alone, stay below the limit of finish and glue, keep out of the line of the cords. Follow local
rules for fire, electricity and protected woods, and leave to a trained hand what you are not
trained for.

`overbend ask` asks what a plan hangs on, at most 25 questions, and writes the file; `overbend sheet`
writes a page with the same questions to print. With `--all` both have every key.

## How values are written

- A quantity is a text with its unit: `"648 mm"`, `"1 11/16 in"`, `"16 thou"`, `"48 degC"`,
  `"118 degF"`, `"2 h"`, `"12 kgf"`, `"45 %"`. A number without a unit is an error where a unit is
  due. Write a decimal point, not a comma.
- A place along the neck is a length from the nut, a fret, or the body join: `"180 mm"`,
  `"fret 7"`, `"fret 7.5"`, `"join"`.
- `unknown` is an honest answer where the table says so; the result then widens.
- Words may be written with blanks, hyphens or underscores, in capitals or not.
- Names of woods, glues, strings and tuners are those of the tables; the program lists them.
- Forward bow is positive, back-bow negative. Twist is positive when the treble corner of the nut
  is raised towards the strings. Sides are bass and treble.
- A default in *italics* comes from the preset.

)";

std::string cell(std::string text)
{
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2))
    text.replace(at, 1, "\\|");
  return text;
}

std::string quoted_words(const Declaration &declaration)
{
  std::vector<std::string> words;
  for (const std::string &word : declaration.words)
    words.push_back("`" + word + "`");
  return listed(words, "or");
}

std::string range(const Declaration &declaration)
{
  const auto bound = [&](double value) {
    return typed_in_both(short_text(value, declaration.dimension), declaration.dimension);
  };
  return bound(declaration.low) + " to " + bound(declaration.high);
}

std::string whole_range(const Declaration &declaration)
{
  return std::to_string(static_cast<int>(declaration.low)) + " to " +
         std::to_string(static_cast<int>(declaration.high));
}

} // namespace

std::string allowed_values(const Declaration &declaration)
{
  std::string text;
  switch (declaration.kind) {
  case Kind::text:
    return "text";
  case Kind::name:
    text = "name";
    break;
  case Kind::choice:
    return quoted_words(declaration);
  case Kind::flag:
    return "`true` or `false`";
  case Kind::count:
    return whole_range(declaration);
  case Kind::fret:
    text = whole_range(declaration);
    return declaration.words.empty() ? text : text + " or " + quoted_words(declaration);
  case Kind::quantity:
    text = range(declaration);
    break;
  case Kind::position:
    return "fret, `join`, or " + range(declaration);
  case Kind::grain:
    text = "`flat`, `rift`, `quarter`, or " + range(declaration);
    break;
  case Kind::month:
    return "a temperature and a humidity";
  case Kind::posts:
    return "`middle`, or posts by side and number";
  case Kind::frets:
    return "`level`, or frets with their heights, " + range(declaration);
  case Kind::radius:
    return "`flat`, or " + range(declaration);
  }
  return declaration.may_be_unknown() ? text + ", or `unknown`" : text;
}

namespace
{
std::string default_text(const Declaration &declaration)
{
  if (declaration.to_be_given)
    return "**to be given**";
  if (!declaration.default_words.empty())
    return declaration.default_words;
  if (declaration.section == "phase")
    return "as it was";
  return declaration.preset_or.empty() ? "*preset*" : "`" + declaration.preset_or + "`";
}

std::string section_manual(const SectionNote &note)
{
  std::string text = "### ";
  text += note.name.empty()        ? "Top of the file"
          : is_repeated(note.name) ? "[[" + note.name + "]]"
                                   : "[" + note.name + "]";
  text += "\n\n" + note.sentence + "\n\n| key | meaning | value | default |\n|---|---|---|---|\n";
  for (const Declaration &declaration : declarations())
    if (declaration.section == note.name)
      text += "| `" + declaration.key + "` | " + cell(declaration.sentence) + " | " +
              cell(allowed_values(declaration)) + " | " + default_text(declaration) + " |\n";
  if (note.name == "phase") {
    text += "\n| kind | what it changes |\n|---|---|\n";
    for (const SectionNote &kind : phase_notes())
      text += "| `" + kind.name + "` | " + kind.sentence + " |\n";
  }
  return text + "\n";
}

std::string preset_value(const Document &preset, const Declaration &declaration)
{
  for (const Section &section : preset.sections)
    for (const Entry &entry : section.entries)
      if (section.name == declaration.section && entry.key == declaration.key)
        return entry.text;
  return "";
}

std::string presets_manual()
{
  std::string text = "## Presets\n\nMiddling values of the trade; they belong to no instrument in "
                     "particular.\n\n";
  std::vector<Document> documents;
  std::string head = "| |", rule = "|---|";
  for (const Preset &preset : presets()) {
    text += "- `" + preset.name + "`: " + preset.sentence + "\n";
    documents.push_back(parse_document(preset.text, "preset " + preset.name));
    head += " " + preset.name + " |";
    rule += "---|";
  }
  text += "\n" + head + "\n" + rule + "\n";
  for (const Declaration &declaration : declarations()) {
    std::string row = "| `" + declaration.name() + "` |";
    bool any = false;
    for (const Document &document : documents) {
      const std::string value = preset_value(document, declaration);
      any = any || !value.empty();
      row += " " + value + " |";
    }
    if (any)
      text += row + "\n";
  }
  return text;
}

std::string units_manual()
{
  std::string text = "## Units\n\n| quantity | units |\n|---|---|\n";
  for (const Dimension dimension :
       {Dimension::length, Dimension::angle, Dimension::slope, Dimension::fraction, Dimension::time,
        Dimension::temperature, Dimension::temperature_difference, Dimension::force,
        Dimension::torque, Dimension::pressure, Dimension::stiffness, Dimension::turning_stiffness,
        Dimension::bedding, Dimension::power, Dimension::conductance, Dimension::water_resistance,
        Dimension::frequency})
    text += "| " + in_words(dimension) + " | " + accepted_units(dimension) + " |\n";
  return text + "\n";
}
} // namespace

std::string manual()
{
  std::string text = introduction + units_manual() + "## Sections and keys\n\n";
  for (const SectionNote &note : section_notes())
    text += section_manual(note);
  return text + presets_manual();
}
} // namespace overbend::cases
