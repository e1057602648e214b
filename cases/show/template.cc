// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declarations.h"
#include "cases/declare/presets.h"
#include "cases/show/manual.h"
#include "cases/text/document.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"

#include <sstream>

namespace overbend::cases
{
namespace
{
std::string commented(const std::string &sentence)
{
  constexpr std::size_t widest = 92;
  std::istringstream words(sentence);
  std::string text, line, next;
  while (words >> next) {
    if (!line.empty() && line.size() + 1 + next.size() > widest) {
      text += "# " + line + "\n";
      line.clear();
    }
    line += (line.empty() ? "" : " ") + next;
  }
  return text + "# " + line + "\n";
}

std::string words_of(const Declaration &declaration)
{
  if (declaration.kind == Kind::choice)
    return " One of: " + listed(declaration.words, "or") + ".";
  return declaration.may_be_unknown() ? " Or unknown." : "";
}

std::string section_template(const SectionNote &note, const Document &preset)
{
  std::string text = "\n" + commented(note.sentence) + "[" + note.name + "]\n";
  for (const Declaration &declaration : declarations()) {
    if (declaration.section != note.name)
      continue;
    text += commented(declaration.sentence + words_of(declaration));
    std::string value = declaration.preset_or;
    for (const Section &section : preset.sections)
      for (const Entry &entry : section.entries)
        if (section.name == note.name && entry.key == declaration.key)
          value = entry.text;
    if (declaration.to_be_given)
      text += declaration.key + " = " + toml_value(declaration, declaration.example) + "\n";
    else
      text += "#" + declaration.key + " = " + toml_value(declaration, value) + "\n";
  }
  return text;
}

constexpr const char *lamination_template = R"(
# A shaft glued up from strips side by side: each from bass to treble, with its width and what of
# it differs from the shaft, such as wood, grain and run-out.
#
# [[lamination]]
# width = "24 mm"
#
# [[lamination]]
# width = "6 mm"
# wood = "black walnut"
# grain = "quarter"
#
# [[lamination]]
# width = "24 mm"
)";

constexpr const char *phase_template = R"(
# Instead of [schedule], the phases may be listed, each with its kind and duration:
#
# [[phase]]
# kind = "clamp"
# duration = "20 min"
#
# [[phase]]
# kind = "heat"
# duration = "2 h"
)";
} // namespace

std::string template_case(const std::string &preset_name)
{
  const Preset *preset = find_preset(preset_name);
  if (preset == nullptr) {
    std::vector<std::string> names;
    for (const Preset &known : presets())
      names.push_back(known.name);
    throw CaseError("template", 0, "there is no preset \"" + preset_name + "\"",
                    suggestion(preset_name, names, "presets"));
  }
  const Document document = parse_document(preset->text, "preset " + preset->name);
  std::string text = commented("A case of one neck. Lines that begin with # and a key show what "
                               "holds if they are left out; take the # away to change them.");
  text += "title = \"untitled\"\n";
  text += commented(preset->sentence) + "preset = \"" + preset->name + "\"\n";
  for (const SectionNote &note : section_notes()) {
    if (note.name == "phase")
      text += phase_template;
    else if (note.name == "lamination")
      text += lamination_template;
    else if (!note.name.empty())
      text += section_template(note, document);
  }
  return text;
}
} // namespace overbend::cases
