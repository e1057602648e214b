// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "cases/check/checking.h"
#include "cases/text/document.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

// The air a neck lived in before the work.
namespace overbend::cases
{
namespace
{
constexpr double year = 31557600; // s

// A time in an air that is not told.
void refuse_idle_time(const Case &result)
{
  const Moisture &known = result.moisture;
  if (known.humidity || known.climate_to > 0)
    return;
  if (known.content || !known.past.file.empty())
    refuse(result, "moisture.lived_for",
           known.content ? "`lived_for` says nothing where the moisture is measured"
                         : "the table of the air says itself how long it lasts",
           "leave it out");
  refuse(result, "moisture.lived_for", "`lived_for` is given, but not the air it lived in",
         "write its `humidity`, or the month it lived to as `climate_to`; or leave it out, and it "
         "is at rest with the room");
}
} // namespace

std::string beside(const std::string &case_file, const std::string &table)
{
  return (std::filesystem::path(case_file).parent_path() / table).string();
}

Climate years_before(const std::array<MonthAir, 12> &months, int last_month, double duration)
{
  Climate climate;
  climate.period = year;
  for (int i = 0; i < 12; ++i) {
    const MonthAir &month = months[static_cast<std::size_t>(i)];
    const double time = duration + (i - last_month) * year / 12;
    climate.points.push_back(
        {time - year * std::floor(time / year), month.temperature, month.humidity});
  }
  std::sort(climate.points.begin(), climate.points.end(),
            [](const ClimatePoint &a, const ClimatePoint &b) { return a.time < b.time; });
  return climate;
}

void resolve_past(Case &result, std::optional<double> lived_for)
{
  Moisture &known = result.moisture;
  if (plain_word(known.past.file) == "none")
    known.past.file.clear();
  if (lived_for)
    refuse_idle_time(result);
  known.lived_for = lived_for.value_or(year);
  if (known.climate_to > 0) {
    const std::string file = known.past.file;
    known.past = years_before(result.year, known.climate_to - 1, known.lived_for);
    known.past.hot_hours = result.hot_evenings.hours;
    known.past.hot_temperature = result.hot_evenings.temperature;
    known.past.file = file; // both: refused by check_case
    return;
  }
  if (known.past.file.empty())
    return;
  const std::string path = beside(result.file, known.past.file);
  std::string text;
  try {
    text = read_text(path);
  } catch (const CaseError &error) {
    refuse(result, "moisture.climate_file",
           "climate_file \"" + known.past.file + "\": " + error.problem, error.remedy);
  }
  known.past.repeats = false;
  parse_climate(text, path, known.past);
}
} // namespace overbend::cases
