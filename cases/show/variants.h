// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"
#include "cases/text/document.h"

#include <string>
#include <vector>

// What-ifs: a case file with some of its entries varied over lists or ranges.
namespace overbend::cases
{
// One entry and the values it takes.
struct Variation
{
  const Declaration *field = nullptr;
  std::vector<std::string> values; // as a case file has them
};

// From a text such as
//   heater.bar_temperature = 57..69 degC in 4     57, 61, 65 and 69 degC
//   glue.board = white PVA, hot hide              each of them; with ; between where values hold a
//                                                 comma
// Throws UnitError for a key that there is none of, a section that may stand several times, an
// empty list, or a range that is none.
Variation parse_variation(const std::string &text);

// One case of a study.
struct Variant
{
  std::vector<std::string> values; // one of each variation
  std::string text;                // the case file
};

// Every combination, the last variation changing fastest. The texts hold the entries of the base,
// without its comments. Throws UnitError for an entry that is varied twice.
std::vector<Variant> variants(const Document &base, const std::vector<Variation> &variations);
} // namespace overbend::cases
