// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/bench_order.h"
#include "cases/intake/intake_answers.h"
#include "cases/read/read_case.h"
#include "cases/text/error.h"

#include <sstream>

// From answers to a case file, and what the gaps tell.
namespace overbend::cases
{
Rests IntakeAnswers::rests() const
{
  const Case result = draft().result;
  return {result.found.rest_fret_a,
          result.found.rest_fret_b > 0 ? result.found.rest_fret_b : result.neck.join_fret};
}

int IntakeAnswers::bow_fret() const
{
  const Case result = draft().result;
  const Gaps &centre = gaps(EdgeLine::centre);
  const int asked = result.found.bow_fret;
  const int fret = asked > 0 ? asked : deepest_fret(centre, result.neck.scale_length, rests());
  return bow_from_gaps(centre, result.neck.scale_length, rests(), fret) ? fret : 0;
}

std::optional<std::string> IntakeAnswers::from_gaps(const Declaration &field) const
{
  if (field.section != "found" || empty())
    return std::nullopt;
  const int fret = bow_fret();
  if (fret == 0)
    return std::nullopt;
  if (field.key == "bow_fret") {
    // A bow told by hand was not read at this fret.
    if (given(*find_declaration("found", "bow")))
      return std::nullopt;
    return std::to_string(fret);
  }
  for (const auto &[key, line] :
       {std::pair("bow", EdgeLine::centre), std::pair("bow_bass", EdgeLine::bass),
        std::pair("bow_treble", EdgeLine::treble)})
    if (field.key == key)
      if (const auto bow = bow_from_gaps(gaps(line), scale_length(), rests(), fret))
        return short_text(*bow, Dimension::length);
  return std::nullopt;
}

std::string gaps_head(EdgeLine line)
{
  return "# Gaps under the edge, " + name_of(line) + ":";
}

void IntakeAnswers::forget_what_gaps_say(const Declaration &field)
{
  const auto answer = given(field);
  if (!answer)
    return;
  forget(field);
  if (from_gaps(field) != answer)
    given_[&field] = *answer;
}

std::string IntakeAnswers::gaps_text() const
{
  std::string text;
  for (const EdgeLine line : edge_lines) {
    if (gaps(line).empty())
      continue;
    text += gaps_head(line);
    for (const auto &[fret, gap] : gaps(line))
      text += (text.back() == ':' ? " fret " : ", fret ") + std::to_string(fret) + " " +
              short_text(gap, Dimension::length);
    text += "\n";
  }
  return text;
}

std::string IntakeAnswers::body_text() const
{
  std::string text = "# Answers of the questionnaire; what is not here comes from the preset and "
                     "the defaults.\n";
  for (const std::string &caution : intake_cautions())
    text += "# " + caution + "\n";
  for (const BenchSection &section : bench_order()) {
    std::string lines;
    for (const Declaration *field : section.fields) {
      std::optional<std::string> value = given(*field);
      const std::optional<std::string> worked_out = from_gaps(*field);
      // "middle" leaves the fret to the gaps.
      if (worked_out && (!value || field->kind == Kind::fret))
        value = worked_out;
      if (value && applies(*field))
        lines += field->key + " = " + toml_value(*field, *value) + "\n";
    }
    if (section.name == "found")
      lines = gaps_text() + lines;
    if (!lines.empty())
      text += (section.name.empty() ? "\n" : "\n[" + section.name + "]\n") + lines;
  }
  return text;
}

std::string IntakeAnswers::case_text() const
{
  const std::string body = body_text();
  const std::optional<IntakeProblem> wrong = problem();
  if (!wrong)
    return body;
  std::string text = "# UNFINISHED, not yet a complete case: " + wrong->what + "; " + wrong->remedy;
  for (char &letter : text)
    if (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7F)
      letter = ' ';
  return text + "\n" + body;
}

namespace
{
// The key that stands on a line of the text.
const Declaration *field_at(const std::string &text, int line)
{
  std::istringstream stream(text);
  std::string section, words;
  for (int number = 1; std::getline(stream, words); ++number) {
    if (!words.empty() && words.front() == '[')
      section = words.substr(1, words.find(']') - 1);
    if (number == line)
      return find_declaration(section, words.substr(0, words.find(' ')));
  }
  return nullptr;
}

const Declaration *field_named_in(const std::string &sentence)
{
  for (const Declaration &field : declarations())
    if (sentence.find("`" + field.name() + "`") != std::string::npos)
      return &field;
  return nullptr;
}
} // namespace

std::optional<IntakeProblem> IntakeAnswers::problem() const
{
  const std::string text = body_text();
  try {
    const Case result = parse_case(text, "answers");
    if (!known_.woods.empty())
      check_names(result, known_);
    return std::nullopt;
  } catch (const CaseError &error) {
    const Declaration *field = field_named_in(error.problem);
    return IntakeProblem{error.problem, error.remedy,
                         field != nullptr ? field : field_at(text, error.line)};
  }
}
} // namespace overbend::cases
