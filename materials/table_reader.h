// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"

#include <toml++/toml.h>

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

// Reading of one table file: sources, entries and their numbers. A fault throws cases::CaseError
// with the file, the line and the entry.
namespace overbend::materials
{
// The numbers of one entry; those the entry has not are looked up in [common], if asked so.
class EntryReader
{
public:
  EntryReader(std::string file, std::string name, const toml::table &entry,
              const toml::table &common, const toml::table &sources, Entry &into);

  // A number or a list in SI; the file must state exactly this unit.
  double number(const std::string &key, const std::string &unit);
  std::vector<double> list(const std::string &key, const std::string &unit);
  // As number(), but the entry may say { missing = "reason" }, which is kept by name.
  std::optional<double> number_or_missing(const std::string &key, const std::string &unit);
  // From the entry if it is there, else from [common].
  double common_number(const std::string &key, const std::string &unit);
  std::vector<double> common_list(const std::string &key, const std::string &unit);

  // Index of the entry's word among those allowed.
  std::size_t choice(const std::string &key, const std::vector<std::string> &words);

  bool has(const std::string &key) const { return entry.contains(key); }
  const std::set<std::string> &used_keys() const { return used; }
  [[noreturn]] void fail(int line, const std::string &what, const std::string &remedy) const;
  int line() const;

private:
  const toml::table &quantity_table(const toml::table &in, const std::string &key) const;
  std::vector<double> read(const toml::table &in, const std::string &key, const std::string &unit);
  void read_spread(const toml::table &table, Quantity &quantity) const;
  std::optional<double> one_spread(const toml::table &table, const std::string &key,
                                   const Quantity &quantity) const;
  void read_range(const toml::array &range, Quantity &quantity) const;
  void read_origin(const toml::table &table, Quantity &quantity) const;
  std::string text(const toml::table &table, const std::string &key,
                   const Quantity &quantity) const;

  std::string file, name;
  const toml::table &entry;
  const toml::table &common;
  const toml::table &sources;
  Entry &into;
  std::set<std::string> used;
};

// Reads one file: for each entry of the group ("wood", "glue", ...), in the order of the file, adds
// an entry and reads its numbers. Names and aliases must not be given twice, and a key that nobody
// asks for is a mistake.
void read_file(const std::string &folder, const std::string &file, const std::string &group,
               std::vector<TableFile> &files, const std::function<Entry &()> &add_entry,
               const std::function<void(EntryReader &)> &read_entry);

template <class Item>
void read_items(const std::string &folder, const std::string &file, const std::string &group,
                std::vector<TableFile> &files, std::vector<Item> &items,
                void (*read_item)(EntryReader &, Item &))
{
  read_file(
      folder, file, group, files, [&items]() -> Entry & { return items.emplace_back(); },
      [&items, read_item](EntryReader &reader) { read_item(reader, items.back()); });
}

// What each table holds for one entry, and its checks.
void read_wood(EntryReader &reader, Wood &wood);
void read_moisture(EntryReader &reader, Wood &wood); // part of read_wood
void read_glue(EntryReader &reader, Glue &glue);
void read_bar(EntryReader &reader, Bar &bar);
void read_string_set(EntryReader &reader, StringSet &set);
void read_tuner(EntryReader &reader, Tuner &tuner);
void read_finish(EntryReader &reader, Finish &finish);
void read_limits(EntryReader &reader, WorkLimits &limits);
} // namespace overbend::materials
