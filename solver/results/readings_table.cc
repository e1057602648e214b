// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/readings_table.h"

#include "solver/results/text_file.h"

#include <cmath>
#include <cstring>
#include <sstream>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double pi = 3.14159265358979323846;
constexpr double newton_per_kgf = 9.80665;
constexpr double kgf_per_lbf = 0.45359237;

std::string cell(const std::string &text)
{
  // A spreadsheet takes a text that begins like this for a formula; after an apostrophe it does
  // not.
  const bool like_a_formula = !text.empty() && std::strchr("=+-@", text.front()) != nullptr;
  const std::string plain = (like_a_formula ? "'" : "") + text;
  if (plain.find_first_of(",\"\r\n") == std::string::npos)
    return plain;
  std::string quoted = "\"";
  for (const char c : plain)
    quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string comment_lines(const std::string &text)
{
  std::string out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    out += line.empty() ? "#\n" : "# " + line + "\n";
  return out;
}
} // namespace

void ReadingsTable::check() const
{
  for (const Row &row : rows) {
    if (row.values.size() != columns.size())
      throw std::invalid_argument("a row of readings has " + std::to_string(row.values.size()) +
                                  " values for " + std::to_string(columns.size()) + " columns");
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (row.values[i] && !std::isfinite(*row.values[i]))
        throw std::invalid_argument("the reading '" + columns[i].name + "' in phase '" + row.phase +
                                    "' is not a finite number");
  }
}

std::vector<ShownUnit> shown_units(Quantity quantity)
{
  switch (quantity) {
  case Quantity::length:
    return {{"mm", 1e3, 0}, {"thou", 1e3 / 0.0254, 0}};
  case Quantity::distance:
    return {{"mm", 1e3, 0}, {"in", 1 / 0.0254, 0}};
  case Quantity::angle:
    return {{"deg", 180 / pi, 0}};
  case Quantity::temperature:
    return {{"degC", 1, -273.15}, {"degF", 1.8, 32 - 1.8 * 273.15}};
  case Quantity::force:
    return {{"N", 1, 0},
            {"kgf", 1 / newton_per_kgf, 0},
            {"lbf", 1 / (newton_per_kgf * kgf_per_lbf), 0}};
  case Quantity::stress:
    return {{"MPa", 1e-6, 0}};
  case Quantity::time:
    return {{"h", 1. / 3600, 0}};
  case Quantity::moisture:
    return {{"%", 100, 0}};
  case Quantity::share:
    return {{"-", 1, 0}};
  case Quantity::fret:
    return {{"fret", 1, 0}};
  }
  throw std::logic_error("a quantity without units");
}

const char *si_unit(Quantity quantity)
{
  switch (quantity) {
  case Quantity::length:
  case Quantity::distance:
    return "m";
  case Quantity::angle:
    return "rad";
  case Quantity::temperature:
    return "K";
  case Quantity::force:
    return "N";
  case Quantity::stress:
    return "Pa";
  case Quantity::time:
    return "s";
  case Quantity::moisture:
  case Quantity::share:
  case Quantity::fret:
    return "1";
  }
  throw std::logic_error("a quantity without units");
}

std::string to_csv(const ReadingsTable &table, const Record &record)
{
  table.check();
  std::string csv = "time [h],phase,moment";
  for (const ReadingsTable::Column &column : table.columns)
    for (const ShownUnit &unit : shown_units(column.quantity))
      csv += "," + cell(column.name + " [" + unit.name + "]");
  csv += "\n";
  for (const ReadingsTable::Row &row : table.rows) {
    csv += number_text(row.time / 3600) + "," + cell(row.phase) + "," + cell(row.moment);
    for (std::size_t i = 0; i < table.columns.size(); ++i)
      for (const ShownUnit &unit : shown_units(table.columns[i].quantity)) {
        csv += ",";
        if (row.values[i])
          csv += number_text(*row.values[i] * unit.factor + unit.offset, 7);
      }
    csv += "\n";
  }
  for (const auto &[name, text] : record_lines(record))
    csv += comment_lines(name + ": " + text);
  csv += "# case text:\n" + comment_lines(record.case_text);
  return csv;
}
} // namespace overbend::solver
