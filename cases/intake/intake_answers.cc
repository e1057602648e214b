// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake_answers.h"

#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "cases/text/document.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"

#include <algorithm>
#include <cmath>

namespace overbend::cases
{
namespace
{
// Written bare in TOML, where spelling matters: 014 or yes would not be read.
bool is_written_as_shown(const Declaration &field)
{
  return field.kind == Kind::flag || field.kind == Kind::count || field.kind == Kind::fret ||
         field.kind == Kind::choice ||
         (field.kind == Kind::quantity && field.dimension == Dimension::number);
}

// The text must come back from the file as it was typed.
void check_writable(const Declaration &field, const std::string &text)
{
  try {
    const Document read = parse_document("x = " + toml_value(field, text), "answer");
    if (read.top.size() == 1 && read.top.front().text == text)
      return;
  } catch (const CaseError &) {
  }
  throw UnitError("this cannot be written into a case file", "use plain letters and digits");
}

bool is_bare_number(const std::string &text)
{
  try {
    parse_quantity(text, Dimension::number);
    return true;
  } catch (const UnitError &) {
    return false;
  }
}

// Winding sticks: "1.2 mm over 43 mm" as an angle; empty if it is not of that form.
std::string sticks_angle(const std::string &text)
{
  const std::string over = " over ";
  const std::size_t at = text.find(over);
  if (at == std::string::npos)
    return "";
  const double rise = parse_quantity(text.substr(0, at), Dimension::length);
  const double length = parse_quantity(text.substr(at + over.size()), Dimension::length);
  if (length <= 0)
    throw UnitError("the sticks have no length", "write such as \"1.2 mm over 43 mm\"");
  const double thousandth_of_a_degree = 0.001 * 3.14159265358979323846 / 180;
  const double angle = std::round(std::atan2(rise, length) / thousandth_of_a_degree);
  return short_text(angle * thousandth_of_a_degree, Dimension::angle);
}
} // namespace

bool is_preset_field(const Declaration &field)
{
  return field.section.empty() && field.key == "preset";
}

std::vector<std::string> preset_names()
{
  std::vector<std::string> names;
  for (const Preset &preset : presets())
    names.push_back(preset.name);
  return names;
}

std::string name_of(EdgeLine line)
{
  return line == EdgeLine::bass ? "bass" : line == EdgeLine::centre ? "centre" : "treble";
}

void IntakeAnswers::set_unit(const std::string &unit)
{
  if (!unit.empty())
    parse_quantity("1 " + unit, Dimension::length);
  unit_ = unit;
}

std::string IntakeAnswers::typed_length(const Declaration &field, const std::string &typed) const
{
  const bool length =
      field.dimension == Dimension::length &&
      (field.kind == Kind::quantity || field.kind == Kind::position || field.kind == Kind::radius);
  return length && !unit_.empty() && is_bare_number(typed) ? typed + " " + unit_ : typed;
}

std::string IntakeAnswers::take(const Declaration &field, const std::string &typed)
{
  std::string text = typed_length(field, typed);
  if (field.dimension == Dimension::angle)
    if (const std::string angle = sticks_angle(text); !angle.empty())
      text = angle;
  if (plain_word(text) == "unknown" && !field.may_be_unknown())
    throw UnitError("unknown is no answer here, the program needs a value",
                    "`skip` takes what the preset or the default says");
  if (is_preset_field(field) && plain_word(text) != plain_word(field.preset_or)) {
    try {
      preset_case(text);
    } catch (const CaseError &error) {
      throw UnitError(error.problem, error.remedy);
    }
  }
  Draft draft = this->draft();
  store(field, text, draft);
  if (field.kind == Kind::name)
    check_name(field, text);
  if (is_written_as_shown(field))
    text = show(field, draft);
  check_writable(field, text);
  given_[&field] = text;
  return text;
}

// Puts the name alone into a case of which everything else is known.
void IntakeAnswers::check_name(const Declaration &field, const std::string &text) const
{
  if (known_.woods.empty() || plain_word(text) == plain_word(field.preset_or))
    return;
  Draft draft;
  draft.result = preset_case(presets().front().name);
  store(field, text, draft);
  try {
    check_names(draft.result, known_);
  } catch (const CaseError &error) {
    throw UnitError(error.problem, error.remedy);
  }
}

std::string IntakeAnswers::known_names(const Declaration &field) const
{
  if (is_preset_field(field))
    return "known presets are " + listed(preset_names());
  const auto names = names_for(field.name(), known_);
  return names && !names->known->empty() ? known_in_words(*names->known, names->things) : "";
}

void IntakeAnswers::take_gap(EdgeLine line, int fret, const std::string &typed)
{
  const int frets = draft().result.neck.frets;
  if (fret < 1 || (frets > 0 && fret > frets))
    throw UnitError("there is no fret " + std::to_string(fret),
                    "name a fret from 1 to " + std::to_string(frets > 0 ? frets : 36));
  const std::string text = !unit_.empty() && is_bare_number(typed) ? typed + " " + unit_ : typed;
  // A bare 0 needs no unit: the edge touches.
  const double gap = text == "0" ? 0 : parse_quantity(text, Dimension::length);
  constexpr double most = 15e-3; // the range of the bow
  if (gap < 0 || gap > most)
    throw UnitError("\"" + text.substr(0, 60) + "\" is out of range",
                    "a gap lies between 0 and " + both_lengths(most) +
                        "; on a back-bow the gaps are at the ends of the edge");
  gaps_[static_cast<std::size_t>(line)][fret] = gap;
}

void IntakeAnswers::forget_gap(EdgeLine line, int fret)
{
  gaps_[static_cast<std::size_t>(line)].erase(fret);
}

std::optional<std::string> IntakeAnswers::given(const Declaration &field) const
{
  const auto found = given_.find(&field);
  return found == given_.end() ? std::nullopt : std::optional<std::string>(found->second);
}

bool IntakeAnswers::from_preset(const Declaration &field) const
{
  return !is_preset_field(field) && field.preset_or != otherwise(field);
}

namespace
{
// The presets never change, and each question looks its value up in one.
const Document &document_of(const Preset &preset)
{
  static std::map<std::string, Document> known;
  const auto found = known.find(preset.name);
  return found != known.end()
             ? found->second
             : known.emplace(preset.name, parse_document(preset.text, "preset")).first->second;
}
} // namespace

std::string IntakeAnswers::otherwise(const Declaration &field) const
{
  const auto name = given_.find(find_declaration("", "preset"));
  const Preset *preset = name == given_.end() ? nullptr : find_preset(name->second);
  if (preset != nullptr && !field.section.empty())
    for (const Section &section : document_of(*preset).sections)
      if (section.name == field.section)
        for (const Entry &entry : section.entries)
          if (entry.key == field.key)
            return entry.text;
  return field.preset_or;
}

std::string IntakeAnswers::effective(const Declaration &field) const
{
  return given(field).value_or(otherwise(field));
}

bool IntakeAnswers::applies(const Declaration &field) const
{
  if (field.only_with.empty())
    return true;
  const Declaration *const kind_of_section = find_declaration(field.section, "kind");
  const std::string kind =
      effective(kind_of_section ? *kind_of_section : *find_declaration(field.section, "cause"));
  return kind.empty() || plain_word(kind) == plain_word(field.only_with);
}

Draft IntakeAnswers::draft() const
{
  Draft draft;
  const auto name = given_.find(find_declaration("", "preset"));
  const Preset *preset = name == given_.end() ? nullptr : find_preset(name->second);
  Document document;
  if (preset != nullptr)
    document = document_of(*preset);
  for (const Declaration &field : declarations()) {
    if (is_repeated(field.section))
      continue;
    std::string text = field.preset_or;
    for (const Section &section : document.sections)
      for (const Entry &entry : section.entries)
        if (section.name == field.section && entry.key == field.key)
          text = entry.text;
    if (const auto answer = given_.find(&field); answer != given_.end())
      text = answer->second;
    try {
      if (!text.empty())
        store(field, text, draft);
    } catch (const UnitError &) {
      // A fret that a later answer took off the board; the check at the end names it.
    }
  }
  return draft;
}
} // namespace overbend::cases
