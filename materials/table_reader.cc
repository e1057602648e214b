// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/table_reader.h"

#include "cases/text/error.h"
#include "cases/text/suggest.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>

namespace overbend::materials
{
namespace
{
struct Unit
{
  double factor, offset; // SI = factor * value + offset
};

// Units of the tables, spelt as the files must spell them.
const std::map<std::string, Unit> &units()
{
  static const std::map<std::string, Unit> all = {
      {"1", {1, 0}},        {"%", {0.01, 0}},       {"%/degF", {0.018, 0}},
      {"GPa", {1e9, 0}},    {"MPa", {1e6, 0}},      {"s", {1, 0}},
      {"min", {60, 0}},     {"kJ/mol", {1e3, 0}},   {"1e-6/K", {1e-6, 0}},
      {"K", {1, 0}},        {"degC", {1, 273.15}},  {"kg/m", {1, 0}},
      {"kg/m^3", {1, 0}},   {"mm", {1e-3, 0}},      {"W/(m K)", {1, 0}},
      {"J/(kg K)", {1, 0}}, {"N", {1, 0}},          {"note", {1, 0}},
      {"decades", {1, 0}},  {"m/s", {1, 0}},        {"s/m", {1, 0}},
      {"m^2/s", {1, 0}},    {"kg/(m^2 s)", {1, 0}}, {"deg", {3.14159265358979323846 / 180, 0}}};
  return all;
}

int line_of(const toml::node &node)
{
  return static_cast<int>(node.source().begin.line);
}

std::string printed(double value)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.6g", value);
  return text;
}

std::vector<std::string> keys_of(const toml::table &table)
{
  std::vector<std::string> keys;
  for (const auto &[key, node] : table)
    keys.emplace_back(key.str());
  return keys;
}

std::vector<double> to_si(const std::vector<double> &values, const std::string &unit)
{
  const Unit u = units().at(unit);
  std::vector<double> si;
  for (const double value : values)
    si.push_back(u.factor * value + u.offset);
  return si;
}
} // namespace

EntryReader::EntryReader(std::string in_file, std::string entry_name, const toml::table &of_entry,
                         const toml::table &of_common, const toml::table &known_sources,
                         Entry &target)
    : file(std::move(in_file)), name(std::move(entry_name)), entry(of_entry), common(of_common),
      sources(known_sources), into(target)
{
  used.insert("aliases");
}

std::size_t EntryReader::choice(const std::string &key, const std::vector<std::string> &words)
{
  used.insert(key);
  const auto word = entry[key].value_exact<std::string>();
  const auto found = word ? std::find(words.begin(), words.end(), *word) : words.end();
  if (found == words.end())
    fail(line(), "`" + key + "` is missing or no word that is known",
         "write " + cases::listed(words, "or"));
  return static_cast<std::size_t>(found - words.begin());
}

int EntryReader::line() const
{
  return line_of(entry);
}

void EntryReader::fail(int at_line, const std::string &what, const std::string &remedy) const
{
  throw cases::CaseError(file, at_line, "entry \"" + name + "\": " + what, remedy);
}

const toml::table &EntryReader::quantity_table(const toml::table &in, const std::string &key) const
{
  const toml::node *node = in.get(key);
  if (node == nullptr)
    fail(line_of(in), "`" + key + "` is missing",
         "give { value, unit, a spread, mark, source } for it");
  if (!node->is_table())
    fail(line_of(*node), "`" + key + "` is not of the form { value = ..., unit = ... }",
         "give value, unit, a spread, mark and source");
  return *node->as_table();
}

std::string EntryReader::text(const toml::table &table, const std::string &key,
                              const Quantity &quantity) const
{
  const auto found = table[key].value_exact<std::string>();
  if (!found || found->empty())
    fail(quantity.line, "`" + quantity.key + "` has no " + key, "add " + key + " = \"...\"");
  return *found;
}

std::optional<double> EntryReader::one_spread(const toml::table &table, const std::string &key,
                                              const Quantity &q) const
{
  if (!table.contains(key))
    return std::nullopt;
  const double value = table[key].value<double>().value_or(std::nan(""));
  if (!std::isfinite(value) || value < 0)
    fail(q.line, "the " + key + " of `" + q.key + "` is not a positive number", "correct it");
  return value;
}

void EntryReader::read_range(const toml::array &range, Quantity &q) const
{
  const bool is_pair = range.size() == 2 && q.value.size() == 1;
  const double low = is_pair ? range[0].value<double>().value_or(std::nan("")) : std::nan("");
  const double high = is_pair ? range[1].value<double>().value_or(std::nan("")) : std::nan("");
  if (!(std::isfinite(low) && std::isfinite(high) && low <= q.value[0] && q.value[0] <= high))
    fail(q.line, "the range of `" + q.key + "` does not hold its value",
         "give range = [low, high] around a single value");
  q.range = {low, high};
  q.spread = printed(low) + " to " + printed(high);
}

void EntryReader::read_spread(const toml::table &table, Quantity &q) const
{
  int given = 0;
  for (const char *key : {"cov", "plus_minus", "range", "spread"})
    given += table.contains(key) ? 1 : 0;
  double each_way = 0;
  if (const auto cov = one_spread(table, "cov", q)) {
    each_way = std::abs(q.value[0]) * *cov;
    q.spread = "CoV " + printed(100 * *cov) + " %";
  }
  if (const auto difference = one_spread(table, "plus_minus", q)) {
    each_way = *difference;
    q.spread = "+/- " + printed(*difference);
  }
  if (each_way > 0 && q.value.size() == 1)
    q.range = {q.value[0] - each_way, q.value[0] + each_way};
  if (const toml::array *range = table["range"].as_array())
    read_range(*range, q);
  if (const auto words = table["spread"].value_exact<std::string>())
    q.spread = *words;
  if (given != 1 || q.spread.empty())
    fail(q.line, "`" + q.key + "` must have one spread",
         "give one of cov, range, plus_minus, or spread = \"words\"");
}

void EntryReader::read_origin(const toml::table &table, Quantity &q) const
{
  const std::string mark = text(table, "mark", q);
  const std::size_t place = std::string("SMEC").find(mark);
  if (mark.size() != 1 || place == std::string::npos)
    fail(q.line, "`" + q.key + "` has the mark \"" + mark + "\"",
         "use S (read), M (memory), E (estimate) or C (computed)");
  q.mark = static_cast<Mark>(place);
  const std::string source = text(table, "source", q);
  const auto sentence = sources[source].value<std::string>();
  if (!sentence || sentence->empty())
    fail(q.line, "the source \"" + source + "\" of `" + q.key + "` is not in [sources]",
         cases::suggestion(source, keys_of(sources), "sources"));
  q.source = *sentence;
}

std::vector<double> EntryReader::read(const toml::table &in, const std::string &key,
                                      const std::string &unit)
{
  used.insert(key);
  const toml::table &table = quantity_table(in, key);
  Quantity q;
  q.key = key;
  q.line = line_of(table);
  if (const toml::array *list = table["value"].as_array())
    for (const toml::node &node : *list)
      q.value.push_back(node.value<double>().value_or(std::nan("")));
  else
    q.value.push_back(table["value"].value<double>().value_or(std::nan("")));
  const auto is_finite = [](double value) { return std::isfinite(value); };
  if (q.value.empty() || !std::all_of(q.value.begin(), q.value.end(), is_finite))
    fail(q.line, "`" + key + "` has no finite value", "give value = a number, or a list of them");
  q.unit = text(table, "unit", q);
  if (q.unit != unit)
    fail(q.line, "`" + key + "` is in \"" + q.unit + "\"", "give it in \"" + unit + "\"");
  read_spread(table, q);
  read_origin(table, q);
  into.numbers.push_back(q);
  return to_si(q.value, unit);
}

double EntryReader::number(const std::string &key, const std::string &unit)
{
  const std::vector<double> values = read(entry, key, unit);
  if (values.size() != 1)
    fail(into.numbers.back().line, "`" + key + "` is a list", "give one number");
  return values[0];
}

std::vector<double> EntryReader::list(const std::string &key, const std::string &unit)
{
  return read(entry, key, unit);
}

std::optional<double> EntryReader::number_or_missing(const std::string &key,
                                                     const std::string &unit)
{
  const toml::table &table = quantity_table(entry, key);
  if (!table.contains("missing"))
    return number(key, unit);
  used.insert(key);
  const auto reason = table["missing"].value_exact<std::string>();
  if (!reason || reason->empty() || table.size() != 1)
    fail(line_of(table), "`" + key + "` is missing without a reason",
         "give { missing = \"reason\" } or a value");
  into.missing.push_back(key + ": " + *reason);
  return std::nullopt;
}

double EntryReader::common_number(const std::string &key, const std::string &unit)
{
  return common_list(key, unit).at(0);
}

std::vector<double> EntryReader::common_list(const std::string &key, const std::string &unit)
{
  return read(has(key) ? entry : common, key, unit);
}

} // namespace overbend::materials
