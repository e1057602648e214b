// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

// A case file as text with line numbers: sections, keys and values, nothing understood yet.
namespace overbend::cases
{
// One `key = value`. Every scalar is kept as text: 22 as "22", true as "true". The reader of the
// key decides what the text means.
struct Entry
{
  std::string key, text;
  int line = 0;
};

// One `[name]`, or one item of a list `[[name]]`.
struct Section
{
  std::string name;
  int line = 0;
  bool listed = false; // of the form [[name]]
  std::vector<Entry> entries;
};

struct Document
{
  std::string file, text;        // name as given, contents verbatim
  std::vector<Entry> top;        // keys before the first section
  std::vector<Section> sections; // in the order of the file
};

constexpr std::size_t largest_case_file = 1000 * 1000; // bytes

// Reads a file from disk, or what comes through a pipe. Throws CaseError if it is missing, a
// directory, unreadable or too large, or if nothing comes through the pipe for a while.
std::string read_text(const std::string &path);

// Throws CaseError for more than a case can hold.
void check_size_of_case(std::size_t bytes, const std::string &file);

// Parses TOML text. Throws CaseError with the line for an empty or oversized text, a text that is
// not UTF-8, broken TOML, duplicate keys, numbers that are not finite, dates, lists and nested
// tables as values.
Document parse_document(const std::string &text, const std::string &file);
} // namespace overbend::cases
