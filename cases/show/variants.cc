// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/show/variants.h"

#include "cases/text/suggest.h"
#include "cases/text/units.h"

#include <algorithm>
#include <cstdlib>
#include <sstream>

namespace overbend::cases
{
namespace
{
constexpr int most_of_a_range = 100;

const Declaration &named(const std::string &name)
{
  const std::size_t dot = name.find('.');
  const Declaration *const field =
      dot == std::string::npos ? find_declaration("", name)
                               : find_declaration(name.substr(0, dot), name.substr(dot + 1));
  if (field != nullptr && !is_repeated(field->section))
    return *field;
  std::vector<std::string> names;
  for (const Declaration &one : declarations())
    if (!is_repeated(one.section))
      names.push_back(one.name());
  const std::string near = nearest_word(name, names);
  throw UnitError("there is no entry `" + name + "` that could be varied",
                  near.empty() ? "name one such as heater.bar_temperature"
                               : "did you mean \"" + near + "\"?");
}

// "57..69 degC in 4"; empty if it is no range.
std::vector<std::string> range(const std::string &text)
{
  const std::size_t dots = text.find(".."), in = text.rfind(" in ");
  if (dots == std::string::npos)
    return {};
  // By itself: "57." of "57..69" is a number too.
  const std::string before = trimmed(text.substr(0, dots));
  char *end = nullptr;
  const double first = std::strtod(before.c_str(), &end);
  const bool starts = !before.empty() && *end == '\0';
  const char *const second = text.c_str() + dots + 2;
  const double last = std::strtod(second, &end);
  const std::size_t unit = std::size_t(end - text.c_str());
  const int count = in == std::string::npos ? 0 : std::atoi(text.c_str() + in + 4);
  if (!starts || end == second || in < unit || count < 2 || count > most_of_a_range)
    throw UnitError("\"" + text + "\" is no range", "write first..last unit in number, such as "
                                                    "\"57..69 degC in 4\", with 2 to 100 values");
  std::vector<std::string> values;
  for (int k = 0; k < count; ++k) {
    std::ostringstream value;
    value << first + (last - first) * k / (count - 1) << text.substr(unit, in - unit);
    values.push_back(value.str());
  }
  return values;
}

std::vector<std::string> list(const std::string &text)
{
  const char between = text.find(';') == std::string::npos ? ',' : ';';
  std::vector<std::string> values;
  std::istringstream parts(text);
  for (std::string part; std::getline(parts, part, between);)
    if (const std::string value = trimmed(part); !value.empty())
      values.push_back(value);
  return values;
}

void set(Document &document, const Declaration &field, const std::string &value)
{
  std::vector<Entry> *entries = &document.top;
  if (!field.section.empty()) {
    auto section = std::find_if(document.sections.begin(), document.sections.end(),
                                [&](const Section &one) { return one.name == field.section; });
    if (section == document.sections.end())
      section = document.sections.insert(document.sections.begin(), {field.section, 0, false, {}});
    entries = &section->entries;
  }
  const auto entry = std::find_if(entries->begin(), entries->end(),
                                  [&](const Entry &one) { return one.key == field.key; });
  if (entry != entries->end())
    entry->text = value;
  else
    entries->push_back({field.key, value, 0});
}

void write_entries(std::ostringstream &out, const std::string &section,
                   const std::vector<Entry> &entries)
{
  for (const Entry &entry : entries) {
    const Declaration *const field = find_declaration(section, entry.key);
    if (field == nullptr)
      throw UnitError("there is no key `" + entry.key + "`", "check the case first");
    out << entry.key << " = " << toml_value(*field, entry.text) << "\n";
  }
}

std::string text_of(const Document &document)
{
  std::ostringstream out;
  write_entries(out, "", document.top);
  for (const Section &section : document.sections) {
    out << (section.listed ? "\n[[" : "\n[") << section.name << (section.listed ? "]]\n" : "]\n");
    write_entries(out, section.name, section.entries);
  }
  return out.str();
}
} // namespace

Variation parse_variation(const std::string &text)
{
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos)
    throw UnitError("\"" + text + "\" names no values",
                    "write an entry and its values, such as \"schedule.hold = 2 h, 4 h\"");
  Variation variation{&named(trimmed(text.substr(0, equals))), {}};
  const std::string values = trimmed(text.substr(equals + 1));
  variation.values = range(values);
  if (variation.values.empty())
    variation.values = list(values);
  if (variation.values.empty())
    throw UnitError("`" + variation.field->name() + "` is given no value",
                    "write its values, with commas between them");
  return variation;
}

std::vector<Variant> variants(const Document &base, const std::vector<Variation> &variations)
{
  for (const Variation &one : variations)
    if (std::count_if(variations.begin(), variations.end(),
                      [&](const Variation &other) { return other.field == one.field; }) > 1)
      throw UnitError("`" + one.field->name() + "` is varied twice", "give all its values at once");
  std::size_t count = 1;
  for (const Variation &one : variations)
    count *= one.values.size();
  std::vector<Variant> all;
  for (std::size_t k = 0; k < count; ++k) {
    Document document = base;
    Variant variant;
    std::size_t rest = k, block = count;
    for (const Variation &one : variations) {
      block /= one.values.size();
      variant.values.push_back(one.values[rest / block]);
      rest %= block;
      set(document, *one.field, variant.values.back());
    }
    variant.text = text_of(document);
    all.push_back(std::move(variant));
  }
  return all;
}
} // namespace overbend::cases
