// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_entries.h"

#include "cases/text/error.h"
#include "cases/text/suggest.h"

namespace overbend::cases
{
namespace
{
std::vector<std::string> section_names()
{
  std::vector<std::string> names;
  for (const SectionNote &note : section_notes())
    if (!note.name.empty())
      names.push_back(note.name);
  return names;
}

std::vector<std::string> keys_of(const std::string &section)
{
  std::vector<std::string> keys;
  for (const Declaration &declaration : declarations())
    if (declaration.section == section)
      keys.push_back(declaration.key);
  return keys;
}

bool is_section(const std::string &name)
{
  for (const SectionNote &note : section_notes())
    if (!note.name.empty() && note.name == name)
      return true;
  return false;
}

// A key that is at home in just one other section is more likely misplaced than misspelt.
std::string home_of(const std::string &key)
{
  std::string home;
  for (const Declaration &declaration : declarations()) {
    if (declaration.key != key || is_repeated(declaration.section))
      continue;
    if (!home.empty())
      return "";
    home = declaration.section;
  }
  return home;
}

void check_keys(const Document &document, const std::string &section,
                const std::vector<Entry> &entries)
{
  for (const Entry &entry : entries) {
    if (find_declaration(section, entry.key) != nullptr)
      continue;
    const std::string place = section.empty() ? "before the first section" : "in [" + section + "]";
    const std::string home = home_of(entry.key);
    std::string remedy = suggestion(entry.key, keys_of(section), "keys");
    if (section.empty() && is_section(entry.key))
      remedy = "it is a section, write [" + entry.key + "] on a line of its own";
    else if (!home.empty())
      remedy = "it belongs in [" + home + "]";
    throw CaseError(document.file, entry.line, "there is no key `" + entry.key + "` " + place,
                    remedy);
  }
}
} // namespace

const Entry *find_entry(const Section &section, const std::string &key)
{
  for (const Entry &entry : section.entries)
    if (entry.key == key)
      return &entry;
  return nullptr;
}

void store_entry(const std::string &file, const Declaration &declaration, const Entry &entry,
                 Draft &draft)
{
  try {
    store(declaration, entry.text, draft);
  } catch (const UnitError &error) {
    throw CaseError(file, entry.line, declaration.name() + ": " + error.problem, error.remedy);
  }
}

void check_known(const Document &document)
{
  check_keys(document, "", document.top);
  for (const Section &section : document.sections) {
    if (!is_section(section.name))
      throw CaseError(document.file, section.line, "there is no section [" + section.name + "]",
                      suggestion(section.name, section_names(), "sections"));
    const bool should_be_listed = is_repeated(section.name);
    const std::string listed = "[[" + section.name + "]]", single = "[" + section.name + "]";
    if (section.listed != should_be_listed)
      throw CaseError(document.file, section.line,
                      should_be_listed ? single + " stands for one of several " + section.name + "s"
                                       : listed + " is written as a list",
                      "write " + (should_be_listed ? listed : single));
    check_keys(document, section.name, section.entries);
  }
}
} // namespace overbend::cases
