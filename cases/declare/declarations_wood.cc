// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

#include <array>

// The wood beyond its name: how evenly it grew, the water in it, and the air of a year.
namespace overbend::cases
{
const std::vector<std::string> &month_names()
{
  static const std::vector<std::string> names = {"january",   "february", "march",    "april",
                                                 "may",       "june",     "july",     "august",
                                                 "september", "october",  "november", "december"};
  return names;
}

namespace
{
void declare_scatter(Declarations &lines)
{
  Table grain(lines, "grain");
  grain.quantity("scatter", Dimension::fraction, OVERBEND_AT(result.scatter.variation), 0, 2,
                 "Unevenness of the swelling along the grain within one blank: standard deviation "
                 "over mean. 0 is even wood; between blanks it is about 60 % [E]. What it does to "
                 "one neck is chance: run several seeds.",
                 "0 %");
  grain.length("scatter_along", OVERBEND_AT(result.scatter.along), 5 * mm, 10,
               "Length along the grain over which it stays alike [E].", "200 mm");
  grain.length("scatter_across", OVERBEND_AT(result.scatter.across), 2 * mm, 10,
               "The same across the grain, a few rings [E].", "15 mm");
  grain.count("seed", OVERBEND_AT(result.scatter.seed), 1, 1000000,
              "Change the number for another piece of wood; the same number gives the same piece.",
              "1");
}

void declare_moisture(Declarations &lines)
{
  Table moisture(lines, "moisture");
  moisture.quantity(
      "content", Dimension::fraction, OVERBEND_AT(result.moisture.content), 0.02, 0.28,
      "Water in the wood by a pin meter, for its dry mass. Instead of the humidity.", "unknown");
  moisture.quantity("humidity", Dimension::fraction, OVERBEND_AT(result.moisture.humidity), 0.05,
                    0.98, "Relative humidity of the air it lived in; unknown: as the room.",
                    "unknown");
  moisture.quantity("temperature", Dimension::temperature, OVERBEND_AT(result.moisture.temperature),
                    celsius(-20), celsius(60), "Temperature of that air; unknown: as the room.",
                    "unknown");
  moisture.time("lived_for", OVERBEND_AT(lived_for), 1 * hour, 200 * year,
                "How long it lived in that air, as built before, or in that of `climate_to`. Only "
                "with one of them; unknown: a year.",
                "unknown");
  std::vector<std::string> months = month_names();
  months.insert(months.begin(), "unknown");
  moisture.choice("climate_to", months, OVERBEND_AT(result.moisture.climate_to),
                  "Instead of the humidity: it lived in the months of [climate] until the middle "
                  "of this one, for `lived_for`, and was at rest with its air before.",
                  "unknown");
  moisture.text("climate_file", OVERBEND_AT(result.moisture.past.file),
                "Instead of the humidity: table of the air it lived in until now (CSV, as that of "
                "a phase), beside the case file; at rest with its first row before.",
                "none");
  moisture.choice("branch", {"taking up", "drying", "mean"}, OVERBEND_AT(result.moisture.branch),
                  "Whether it was taking up water last or drying: at one humidity dried wood holds "
                  "more. Mean if you do not know.",
                  "mean");
  moisture.quantity("built_at", Dimension::fraction, OVERBEND_AT(result.moisture.built_at), 0.2,
                    0.8, "Relative humidity of the shop that glued it together; 45 to 50 % [E].",
                    "47 %");
}

// A heated house in a temperate country: dry in winter, damper in summer [E].
void declare_climate(Declarations &lines)
{
  static const std::array<const char *, 12> house = {
      "20 degC, 35 %", "20 degC, 35 %", "20 degC, 38 %", "20 degC, 42 %",
      "21 degC, 48 %", "23 degC, 54 %", "24 degC, 57 %", "24 degC, 57 %",
      "22 degC, 54 %", "21 degC, 48 %", "20 degC, 42 %", "20 degC, 37 %"};
  static constexpr std::array<MonthAir &(*)(Draft &), 12> places = {
      OVERBEND_AT(result.year[0]), OVERBEND_AT(result.year[1]),  OVERBEND_AT(result.year[2]),
      OVERBEND_AT(result.year[3]), OVERBEND_AT(result.year[4]),  OVERBEND_AT(result.year[5]),
      OVERBEND_AT(result.year[6]), OVERBEND_AT(result.year[7]),  OVERBEND_AT(result.year[8]),
      OVERBEND_AT(result.year[9]), OVERBEND_AT(result.year[10]), OVERBEND_AT(result.year[11])};
  Table climate(lines, "climate");
  for (std::size_t month = 0; month < house.size(); ++month) {
    std::string name = month_names()[month];
    name.front() = static_cast<char>(name.front() - 'a' + 'A');
    climate.month(month_names()[month], places[month], "Air in " + name + " [E].", house[month]);
  }
  climate.time("hot_hours_a_week", OVERBEND_AT(result.hot_evenings.hours), 0, 100 * hour,
               "Hours of each week in which the instrument stands hot, on one evening: under the "
               "lamps of a stage, in a car in the sun. The months tell the rest of the time.",
               "0 h");
  climate.quantity("hot_temperature", Dimension::temperature,
                   OVERBEND_AT(result.hot_evenings.temperature), celsius(25), celsius(80),
                   "Air in those hours; it keeps the water of the month's air [E].", "38 degC");
}
} // namespace

void declare_wood(Declarations &lines)
{
  declare_scatter(lines);
  declare_moisture(lines);
  declare_climate(lines);
}
} // namespace overbend::cases
