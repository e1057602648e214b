// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/record.h"

#include <optional>
#include <string>
#include <vector>

// The table of readings of a run: one row a moment at the bench, one column a reading.
namespace overbend::solver
{
// What a column holds; its values are SI. At the edge each is shown in the units of the trade:
// length mm and thou (0.001 in), distance along the neck mm and in, angle degrees, temperature degC
// and degF, force N, kgf and lbf, stress MPa, time h, moisture content % of the dry mass, share and
// fret as they are.
enum class Quantity {
  length,
  distance,
  angle,
  temperature,
  force,
  stress,
  time,
  moisture,
  share,
  fret
};

struct ReadingsTable
{
  struct Column
  {
    std::string name; // says what and where: "bow centre, fret 7 over frets 1 and 14"
    Quantity quantity = Quantity::length;
  };
  struct Row
  {
    double time = 0; // s since the start of the run
    std::string phase;
    std::string moment;                        // "end", "after re-reading", ...
    std::vector<std::optional<double>> values; // one a column; empty: not read then
  };
  std::vector<Column> columns;
  std::vector<Row> rows;

  // std::invalid_argument if a row has not one value a column or a value is not finite.
  void check() const;
};

// One unit a quantity is shown in: shown = value * factor + offset.
struct ShownUnit
{
  const char *name;
  double factor;
  double offset;
};

// All units a quantity is shown in, the metric one first. Exact by definition: 1 in = 25.4 mm,
// 1 kgf = 9.80665 N, 1 lbf = 0.45359237 kgf, 0 degC = 273.15 K.
std::vector<ShownUnit> shown_units(Quantity quantity);

// The SI unit of the values themselves.
const char *si_unit(Quantity quantity);

// The table as CSV (RFC 4180, lines end in \n): a header line with units in brackets, the rows,
// and below them the record of the run and the case, each line after a '#'. A reading that was
// not taken is an empty cell; a text that begins with = + - or @ stands after an apostrophe.
std::string to_csv(const ReadingsTable &table, const Record &record);
} // namespace overbend::solver
