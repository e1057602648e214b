// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <optional>

// Air that changes with time: the months of [climate] or a table in a file.
namespace overbend::cases
{
// Air around the instrument at a time (s) from the start of the phase. Straight lines between the
// points of its climate, which come again after its period; without points the phase's own air. In
// the middle of each week from the start on, hot for Climate::hot_hours, with a quarter of an hour
// to get hot and to cool; it keeps its water.
Air air_at(const Phase &phase, double time);

// The twelve months as points in their middles, repeated every year (365.25 days of twelve equal
// months), beginning with the given month (0 = January) at time 0.
Climate yearly_climate(const std::array<MonthAir, 12> &year, int first_month);

// The months of [climate] with its hot evenings, beginning with the given month.
Climate indoor_climate(const Case &the_case, int first_month);

// The twelve months, ending after `duration` (s) in the middle of the given month.
Climate years_before(const std::array<MonthAir, 12> &year, int last_month, double duration);

// Fills Moisture::past from the months or its table, and lived_for (not given: a year). Throws
// CaseError, also if lived_for is given without the air.
void resolve_past(Case &result, std::optional<double> lived_for);

// Path of a table that stands beside the case file.
std::string beside(const std::string &case_file, const std::string &table);

// Reads a table of comma-separated values. Its first line names the columns and their units, such
// as `time [h], temperature [degC], humidity [%]`; `dew point [degC]` may stand for the humidity.
// Semicolons between the columns go with decimal commas; a byte-order mark is skipped.
// Lines that begin with # and empty lines are skipped. Time is counted from the first row and must
// grow. Fills points, and the period if the table repeats: the last row must then hold the air of
// the first. Throws CaseError with file and line.
void parse_climate(const std::string &text, const std::string &file, Climate &climate);

// "january" to "december".
const std::vector<std::string> &month_names();
} // namespace overbend::cases
