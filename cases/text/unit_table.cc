// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/unit_table.h"

#include "cases/text/suggest.h"

namespace overbend::cases
{
namespace
{
constexpr long double kgf = 9.80665L, lbf = 4.4482216152605L;
} // namespace

// Exact by definition: inch, pound and kilogram-force, the zero points of the scales (SI brochure,
// 9th edition, and NIST SP 811, appendix B.8 [M]). The first of a dimension is the usual one.
const std::vector<Unit> &units()
{
  static const std::vector<Unit> table = {
      {Dimension::fraction, "%", 0.01L, 0},
      {Dimension::fraction, "percent", 0.01L, 0},
      {Dimension::slope, "%", 0.01L, 0},
      {Dimension::slope, "percent", 0.01L, 0},
      {Dimension::slope, "deg", one_degree, 0},
      {Dimension::length, "mm", 1e-3L, 0},
      {Dimension::length, "cm", 1e-2L, 0},
      {Dimension::length, "m", 1, 0},
      {Dimension::length, "in", inch, 0},
      {Dimension::length, "thou", inch / 1000, 0},
      {Dimension::angle, "deg", one_degree, 0},
      {Dimension::angle, "rad", 1, 0},
      {Dimension::time, "s", 1, 0},
      {Dimension::time, "min", 60, 0},
      {Dimension::time, "h", 3600, 0},
      {Dimension::time, "day", 86400, 0},
      {Dimension::time, "days", 86400, 0},
      {Dimension::time, "week", 604800, 0},
      {Dimension::time, "weeks", 604800, 0},
      {Dimension::time, "year", 31557600, 0}, // Julian year, 365.25 days
      {Dimension::time, "years", 31557600, 0},
      {Dimension::temperature, "degC", 1, 273.15L},
      {Dimension::temperature, "degF", 5 / 9.0L, 459.67L},
      {Dimension::temperature, "K", 1, 0},
      {Dimension::temperature_difference, "K", 1, 0},
      {Dimension::temperature_difference, "degC", 1, 0},
      {Dimension::temperature_difference, "degF", 5 / 9.0L, 0},
      {Dimension::force, "N", 1, 0},
      {Dimension::force, "kgf", kgf, 0},
      {Dimension::force, "lbf", lbf, 0},
      {Dimension::torque, "N m", 1, 0},
      {Dimension::pressure, "MPa", 1e6L, 0},
      {Dimension::pressure, "GPa", 1e9L, 0},
      {Dimension::pressure, "Pa", 1, 0},
      {Dimension::stiffness, "N/mm", 1e3L, 0},
      {Dimension::stiffness, "N/m", 1, 0},
      {Dimension::turning_stiffness, "N m/rad", 1, 0},
      {Dimension::turning_stiffness, "N m/deg", 1 / one_degree, 0},
      {Dimension::bedding, "N/mm3", 1e9L, 0},
      {Dimension::bedding, "N/m3", 1, 0},
      {Dimension::power, "W", 1, 0},
      {Dimension::conductance, "W/(m2 K)", 1, 0},
      {Dimension::water_resistance, "s/m", 1, 0},
      {Dimension::frequency, "Hz", 1, 0},
  };
  return table;
}

const char *example(Dimension dimension)
{
  switch (dimension) {
  case Dimension::number:
    return "2.2";
  case Dimension::fraction:
    return "45 %";
  case Dimension::slope:
    return "5 %";
  case Dimension::length:
    return "0.5 mm";
  case Dimension::angle:
    return "14 deg";
  case Dimension::time:
    return "25 min";
  case Dimension::temperature:
    return "48 degC";
  case Dimension::temperature_difference:
    return "5 K";
  case Dimension::force:
    return "12 kgf";
  case Dimension::torque:
    return "3 N m";
  case Dimension::pressure:
    return "10 MPa";
  case Dimension::stiffness:
    return "30 N/mm";
  case Dimension::turning_stiffness:
    return "3000 N m/rad";
  case Dimension::bedding:
    return "2 N/mm3";
  case Dimension::power:
    return "100 W";
  case Dimension::conductance:
    return "8 W/(m2 K)";
  case Dimension::water_resistance:
    return "3e7 s/m";
  case Dimension::frequency:
    return "110 Hz";
  }
  return "";
}

std::string in_words(Dimension dimension)
{
  switch (dimension) {
  case Dimension::number:
    return "a number";
  case Dimension::fraction:
    return "a percentage";
  case Dimension::slope:
    return "a slope of the grain";
  case Dimension::length:
    return "a length";
  case Dimension::angle:
    return "an angle";
  case Dimension::time:
    return "a time";
  case Dimension::temperature:
    return "a temperature";
  case Dimension::temperature_difference:
    return "a temperature difference";
  case Dimension::force:
    return "a force";
  case Dimension::torque:
    return "a torque";
  case Dimension::pressure:
    return "a pressure";
  case Dimension::stiffness:
    return "a stiffness";
  case Dimension::turning_stiffness:
    return "a turning stiffness";
  case Dimension::bedding:
    return "a pad stiffness";
  case Dimension::power:
    return "a power";
  case Dimension::conductance:
    return "a heat conductance";
  case Dimension::water_resistance:
    return "a resistance to water";
  case Dimension::frequency:
    return "a frequency";
  }
  return "";
}

std::string accepted_units(Dimension dimension)
{
  std::vector<std::string> names;
  for (const Unit &unit : units())
    if (unit.dimension == dimension)
      names.push_back(unit.name);
  if (dimension == Dimension::slope)
    names.push_back("\"1 in 20\"");
  return listed(names, "or");
}
} // namespace overbend::cases
