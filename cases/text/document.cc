// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/document.h"

#include "cases/text/error.h"

#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace overbend::cases
{
namespace
{
// Length of the UTF-8 sequence at the position, 0 if it is not valid there.
std::size_t utf8_length(const std::string &text, std::size_t at)
{
  const auto byte = [&](std::size_t i) {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0u;
  };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned first = byte(0);
  if (first < 0x80)
    return 1;
  if (first >= 0xC2 && first < 0xE0)
    return follows(1) ? 2 : 0;
  if (first >= 0xE0 && first < 0xF0) {
    const bool overlong = first == 0xE0 && byte(1) < 0xA0;
    const bool surrogate = first == 0xED && byte(1) >= 0xA0;
    return follows(1) && follows(2) && !overlong && !surrogate ? 3 : 0;
  }
  if (first >= 0xF0 && first < 0xF5) {
    const bool overlong = first == 0xF0 && byte(1) < 0x90;
    const bool too_large = first == 0xF4 && byte(1) >= 0x90;
    return follows(1) && follows(2) && follows(3) && !overlong && !too_large ? 4 : 0;
  }
  return 0;
}

void check_encoding(const std::string &text, const std::string &file)
{
  const char *remedy = "save it as plain text in UTF-8";
  if (text.rfind("\xFF\xFE", 0) == 0 || text.rfind("\xFE\xFF", 0) == 0)
    throw CaseError(file, 1, "the file is written in UTF-16", remedy);
  int line = 1;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0)
      throw CaseError(file, line, "the line holds bytes that are not UTF-8", remedy);
    if (text[at] == '\0')
      throw CaseError(file, line, "the line holds a zero byte, so this is not a text file", remedy);
    if (text[at] == '\n')
      ++line;
    at += length;
  }
}

void check_size(std::size_t bytes, const std::string &file)
{
  if (bytes > largest_case_file)
    throw CaseError(file, 0,
                    "the file has " + std::to_string(bytes / 1000) +
                        " kB, more than the 1000 kB allowed for a case",
                    "give the case file itself, not results or pictures");
}

std::string number_text(double value)
{
  std::array<char, 64> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return std::string(buffer.data(), end.ptr);
}

int line_of(const toml::node &node)
{
  return static_cast<int>(node.source().begin.line);
}

Entry read_entry(const std::string &key, const toml::node &node, const std::string &file)
{
  const int line = line_of(node);
  if (const auto *text = node.as_string())
    return {key, text->get(), line};
  if (const auto *flag = node.as_boolean())
    return {key, flag->get() ? "true" : "false", line};
  if (const auto *whole = node.as_integer())
    return {key, std::to_string(whole->get()), line};
  if (const auto *number = node.as_floating_point()) {
    if (!std::isfinite(number->get()))
      throw CaseError(file, line, "`" + key + "` is not a finite number", "write a real value");
    return {key, number_text(number->get()), line};
  }
  const char *kind = node.is_array() ? "a list" : node.is_table() ? "a table" : "a date or time";
  throw CaseError(file, line, "`" + key + "` is " + kind,
                  "write one value, a text in quotes, a number, true or false");
}

Section read_section(const std::string &name, const toml::table &table, int line, bool listed,
                     const std::string &file)
{
  Section section{name, line, listed, {}};
  for (const auto &[key, node] : table)
    section.entries.push_back(read_entry(std::string(key.str()), node, file));
  const auto by_line = [](const Entry &a, const Entry &b) { return a.line < b.line; };
  std::stable_sort(section.entries.begin(), section.entries.end(), by_line);
  return section;
}

// The parser's own words are kept; its trailing full stop is not.
std::string parser_words(const toml::parse_error &error)
{
  std::string words(error.description());
  while (!words.empty() && words.back() == '.')
    words.pop_back();
  std::replace(words.begin(), words.end(), '\n', ' ');
  return "this is not valid TOML (" + words + ")";
}

toml::table parse_toml(const std::string &text, const std::string &file)
{
  try {
    return toml::parse(text, file);
  } catch (const toml::parse_error &error) {
    throw CaseError(file, static_cast<int>(error.source().begin.line), parser_words(error),
                    "write key = \"value\" under a [section], each key once, texts in quotes");
  }
}
} // namespace

std::string read_text(const std::string &path)
{
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status))
    throw CaseError(path, 0, "there is no such file", "check the name and the folder");
  if (std::filesystem::is_directory(status))
    throw CaseError(path, 0, "this is a folder, not a case file", "name a file inside it");
  if (std::filesystem::is_regular_file(status))
    check_size(std::filesystem::file_size(path, error), path);
  std::ifstream stream(path, std::ios::binary);
  std::string text(largest_case_file + 1, '\0');
  if (stream)
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!stream.is_open() || stream.bad())
    throw CaseError(path, 0, std::string("the file cannot be read (") + std::strerror(errno) + ")",
                    "check its permissions");
  text.resize(static_cast<std::size_t>(stream.gcount()));
  check_size(text.size(), path);
  return text;
}

Document parse_document(const std::string &text, const std::string &file)
{
  check_size(text.size(), file);
  check_encoding(text, file);
  const toml::table root = parse_toml(text, file);
  Document document{file, text, {}, {}};
  for (const auto &[toml_key, node] : root) {
    const std::string key(toml_key.str());
    const toml::array *list = node.as_array();
    if (const toml::table *table = node.as_table()) {
      document.sections.push_back(read_section(key, *table, line_of(node), false, file));
    } else if (list != nullptr && !list->empty() && list->is_homogeneous<toml::table>()) {
      for (const toml::node &item : *list)
        document.sections.push_back(read_section(key, *item.as_table(), line_of(item), true, file));
    } else {
      document.top.push_back(read_entry(key, node, file));
    }
  }
  if (document.top.empty() && document.sections.empty())
    throw CaseError(file, 0, "the file is empty",
                    "start from a template, or write preset = \"electric\" and what you measured");
  const auto by_line = [](const auto &a, const auto &b) { return a.line < b.line; };
  std::stable_sort(document.top.begin(), document.top.end(), by_line);
  std::stable_sort(document.sections.begin(), document.sections.end(), by_line);
  return document;
}
} // namespace overbend::cases
