// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

// Text with a unit to SI and back. Everything inside the program is SI; units exist only here.
namespace overbend::cases
{
// What a quantity is. An absolute temperature and a temperature difference are different things:
// "48 degC" is 321.15 K as the one and 48 K as the other.
enum class Dimension {
  number,                 // bare number, no unit
  fraction,               // written in percent, held as 0..1
  slope,                  // of the grain: percent, "1 in 20" or degrees, held as a tangent
  length,                 // m
  angle,                  // rad
  time,                   // s
  temperature,            // K, absolute
  temperature_difference, // K
  force,                  // N
  torque,                 // N m
  pressure,               // Pa
  stiffness,              // N/m
  turning_stiffness,      // N m/rad
  bedding,                // N/m^3, stiffness of a pad for its area
  power,                  // W
  conductance,            // W/(m^2 K)
  water_resistance,       // s/m, of moisture content
  frequency               // Hz
};

// A text that is no quantity of the dimension asked for: what is wrong and what to write.
// The reader adds file and line.
class UnitError : public std::runtime_error
{
public:
  UnitError(const std::string &what_is_wrong, const std::string &what_to_do)
      : std::runtime_error(what_is_wrong + "; " + what_to_do), problem(what_is_wrong),
        remedy(what_to_do)
  {}
  std::string problem, remedy;
};

// SI value of a text such as "648 mm", "1 11/16 in", "48 degC", "2 h", "12 kgf", "45 %".
// Throws UnitError if the number is malformed or not finite, if the unit is missing, unknown or
// of another dimension. Absolute temperatures below 0 K are refused.
double parse_quantity(const std::string &text, Dimension dimension);

// Shortest text in the dimension's usual unit that parses back to exactly this value.
std::string exact_text(double value, Dimension dimension);

// The value in the dimension's usual unit to nine digits: "25 deg". Times take the largest unit
// that comes out even: "2 weeks".
std::string short_text(double value, Dimension dimension);

// "a length", "a temperature difference": the dimension in words, with its article.
std::string in_words(Dimension dimension);

// Units a text of this dimension may carry: "mm, cm, m, in or thou".
std::string accepted_units(Dimension dimension);

// Output for people: the user's unit and the other one common in the trade, on one line.
std::string both_lengths(double metres);      // "0.24 mm (9.4 thou)", "648.0 mm (25.51 in)"
std::string both_temperatures(double kelvin); // "48 degC (118 degF)"
std::string both_temperature_differences(double kelvin); // "5 degC (9 degF)"
std::string all_forces(double newtons);                  // "106 N (10.8 kgf, 23.8 lbf)"
// A value as it is typed, with the other unit of the trade in brackets where there is one:
// "648 mm (25.51 in)", "16 thou (0.41 mm)", "30 N/mm (171 lbf/in)"; other texts as they are.
std::string typed_in_both(const std::string &text, Dimension dimension);
std::string clock(double seconds);   // "2 h 25 min"; "6 days 23 h"; "40 s"
std::string degrees(double radians); // "0.60 deg"
} // namespace overbend::cases
