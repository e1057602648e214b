// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake.h"
#include "cases/intake/intake_words.h"
#include "cases/read/read_entries.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"

#include <sstream>

// Going on with a file that the questionnaire wrote.
namespace overbend::cases
{
namespace
{
// Top entries and those of the sections, with the name of their section.
std::vector<std::pair<std::string, Entry>> all_entries(const Document &document)
{
  std::vector<std::pair<std::string, Entry>> entries;
  for (const Entry &entry : document.top)
    entries.emplace_back("", entry);
  for (const Section &section : document.sections) {
    if (section.listed)
      throw CaseError(document.file, section.line,
                      "the questionnaire does not ask for " +
                          std::string(section.name == "phase" ? "phases" : "strips"),
                      "change this file by hand, or start another one");
    for (const Entry &entry : section.entries)
      entries.emplace_back(section.name, entry);
  }
  return entries;
}
} // namespace

void Intake::choose_preset(const std::string &preset)
{
  try {
    answers_.take(*find_declaration("", "preset"), preset);
  } catch (const UnitError &error) {
    throw CaseError("ask", 0, error.problem, error.remedy);
  }
}

void Intake::resume(const std::string &text, const std::string &file)
{
  const Document document = parse_document(text, file);
  check_known(document);
  for (const auto &[section, entry] : all_entries(document)) {
    try {
      answers_.take(*find_declaration(section, entry.key), entry.text);
    } catch (const UnitError &error) {
      throw CaseError(file, entry.line, entry.key + ": " + error.problem, error.remedy);
    }
  }
  resume_gaps(text, file);
  // What the gaps say again is no answer of its own, and follows them when they change.
  for (const Question &question : questions_)
    if (question.field != nullptr)
      answers_.forget_what_gaps_say(*question.field);
}

void Intake::resume_gaps(const std::string &text, const std::string &file)
{
  std::istringstream lines(text);
  std::string words;
  for (int number = 1; std::getline(lines, words); ++number)
    for (const EdgeLine line : edge_lines) {
      const std::string head = gaps_head(line);
      if (words.rfind(head, 0) != 0)
        continue;
      std::istringstream gaps(words.substr(head.size()));
      std::string gap;
      while (std::getline(gaps, gap, ','))
        try {
          gap = trimmed(gap);
          const int fret = take_fret(gap);
          add_gap(line, fret, gap);
        } catch (const UnitError &error) {
          throw CaseError(file, number, error.problem, error.remedy);
        }
    }
}
} // namespace overbend::cases
