// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

// One entry of a table (tables.h), with the origin of every number.
namespace overbend::materials
{
constexpr unsigned n_directions = 6;             // LL, RR, TT, RT, LT, LR, as in Vector6
constexpr double reference_temperature = 293.15; // K, 20 degC: state of the table values
constexpr double reference_moisture = 0.12;      // kg/kg

// Where a number comes from. [S] read in the source, [M] from memory of the source,
// [E] estimate or common practice without source, [C] computed from other numbers.
enum class Mark { source_read, memory, estimate, computed };

// One line of a table, as written in the file.
struct Quantity
{
  std::string key;
  std::vector<double> value; // in `unit`; one number, or all of a list
  std::string unit;
  std::string spread;                             // in words and numbers, as printed
  std::optional<std::pair<double, double>> range; // in `unit`; for a CoV one deviation each way
  Mark mark = Mark::estimate;
  std::string source;
  int line = 0;
};

// What all entries have: name, other accepted names, all lines, and what is known to be missing.
struct Entry
{
  std::string name;
  std::vector<std::string> aliases;
  std::vector<Quantity> numbers;
  std::vector<std::string> missing; // key and reason, as printed

  const Quantity &number(const std::string &key) const; // throws std::out_of_range
};
} // namespace overbend::materials
