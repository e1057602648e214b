// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/document.h"

#include "cases/text/encoding.h"
#include "cases/text/error.h"
#include "cases/text/printable.h"
#include "cases/text/toml_guard.h"

#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace overbend::cases
{
namespace
{
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

// Keys in quotes can hold anything.
std::string checked_key(const std::string &key, int line, const std::string &file)
{
  if (key.size() > longest_key)
    throw CaseError(file, line, "there is no key or section \"" + shortened(key) + "\"",
                    "keys are plain words, such as bow under [found]");
  return key;
}

// A value is shown in messages, tables and pages: one line of it, of a length that can be read.
std::string checked_text(const std::string &key, const std::string &text, int line,
                         const std::string &file)
{
  constexpr std::size_t longest_text = 1000; // bytes; a line for every fret has half of it
  if (text.size() > longest_text)
    throw CaseError(file, line,
                    "`" + key + "` has " + std::to_string(text.size()) +
                        " bytes of text, more than the " + std::to_string(longest_text) +
                        " allowed for a value",
                    "shorten it");
  for (std::size_t at = 0; at < text.size(); at += utf8_length(text, at))
    if (is_control(text, at) && text[at] != '\t')
      throw CaseError(file, line,
                      "`" + key + "` holds a character that is not shown but obeyed (" +
                          printable(text.substr(at, utf8_length(text, at))) + ")",
                      "write it as plain text in one line");
  return text;
}

Entry read_entry(const std::string &key, const toml::node &node, const std::string &file)
{
  const int line = line_of(node);
  if (const auto *text = node.as_string())
    return {key, checked_text(key, text->get(), line, file), line};
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
    section.entries.push_back(
        read_entry(checked_key(std::string(key.str()), line_of(node), file), node, file));
  const auto by_line = [](const Entry &a, const Entry &b) { return a.line < b.line; };
  std::stable_sort(section.entries.begin(), section.entries.end(), by_line);
  return section;
}

// The parser's own words are kept; its trailing full stop is not, nor what it quotes of a text
// without end.
std::string parser_words(const toml::parse_error &error)
{
  constexpr std::size_t longest_words = 300;
  std::string words(error.description());
  while (!words.empty() && words.back() == '.')
    words.pop_back();
  std::replace(words.begin(), words.end(), '\n', ' ');
  return "this is not valid TOML (" + shortened(words, longest_words) + ")";
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

Document parse_document(const std::string &text, const std::string &file)
{
  check_size_of_case(text.size(), file);
  check_encoding(text, file);
  refuse_what_the_parser_does_not_bear(text, file);
  const toml::table root = parse_toml(text, file);
  Document document{file, text, {}, {}};
  for (const auto &[toml_key, node] : root) {
    const std::string key = checked_key(std::string(toml_key.str()), line_of(node), file);
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
