// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/document.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"
#include "materials/sha256.h"
#include "materials/table_reader.h"

#include <algorithm>

namespace overbend::materials
{
namespace
{
int line_of(const toml::node &node)
{
  return static_cast<int>(node.source().begin.line);
}

toml::table parse(const std::string &path, const std::string &text)
{
  try {
    return toml::parse(text, path);
  } catch (const toml::parse_error &error) {
    throw cases::CaseError(path, static_cast<int>(error.source().begin.line),
                           "not valid TOML: " + std::string(error.description()),
                           "restore the table as it was shipped");
  }
}

// A key nobody asks for is a mistake.
void check_keys(const toml::table &table, const std::set<std::string> &known,
                const std::string &path)
{
  for (const auto &[key, node] : table) {
    const std::string word(key.str());
    if (known.count(word) == 0)
      throw cases::CaseError(path, line_of(node), "`" + word + "` is not known here",
                             cases::suggestion(word, {known.begin(), known.end()}, "keys"));
  }
}

std::vector<std::string> read_aliases(const toml::table &entry, const EntryReader &reader)
{
  std::vector<std::string> aliases;
  if (const toml::array *list = entry["aliases"].as_array())
    for (const toml::node &node : *list) {
      const auto alias = node.value_exact<std::string>();
      if (!alias)
        reader.fail(line_of(node), "an alias is not a text", "put it in quotes");
      aliases.push_back(*alias);
    }
  return aliases;
}

// The tables of one group in the order of the file.
std::vector<std::pair<std::string, const toml::table *>> in_order(const toml::table &group,
                                                                  const std::string &path)
{
  std::vector<std::pair<std::string, const toml::table *>> entries;
  for (const auto &[key, node] : group) {
    if (!node.is_table())
      throw cases::CaseError(path, line_of(node), "`" + std::string(key.str()) + "` is no entry",
                             "write [group.\"name\"] above its numbers");
    entries.emplace_back(std::string(key.str()), node.as_table());
  }
  std::sort(entries.begin(), entries.end(),
            [](const auto &a, const auto &b) { return line_of(*a.second) < line_of(*b.second); });
  return entries;
}
} // namespace

void read_file(const std::string &folder, const std::string &file, const std::string &group,
               std::vector<TableFile> &files, const std::function<Entry &()> &add_entry,
               const std::function<void(EntryReader &)> &read_entry)
{
  const std::string path = folder + "/" + file;
  const std::string content = cases::read_text(path);
  const toml::table root = parse(path, content);
  const toml::table none;
  const toml::table *sources = root["sources"].as_table();
  const toml::table *entries = root[group].as_table();
  const toml::table *common = root.contains("common") ? root["common"].as_table() : &none;
  if (sources == nullptr || entries == nullptr || entries->empty() || common == nullptr)
    throw cases::CaseError(path, 0, "[sources] or every [" + group + ".\"name\"] is missing",
                           "restore the table as it was shipped");
  std::set<std::string> names, used = {"sources", "common", group};
  check_keys(root, used, path);
  used.clear();
  for (const auto &[name, table] : in_order(*entries, path)) {
    Entry &entry = add_entry();
    EntryReader reader(path, name, *table, *common, *sources, entry);
    entry.name = name;
    entry.aliases = read_aliases(*table, reader);
    std::vector<std::string> all = entry.aliases;
    all.push_back(name);
    for (const std::string &one : all)
      if (!names.insert(cases::plain_word(one)).second)
        reader.fail(reader.line(), "the name \"" + one + "\" is given twice", "keep one of them");
    read_entry(reader);
    check_keys(*table, reader.used_keys(), path);
    used.insert(reader.used_keys().begin(), reader.used_keys().end());
  }
  check_keys(*common, used, path);
  files.push_back({file, sha256(content)});
}
} // namespace overbend::materials
