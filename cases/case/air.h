// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

// Air around the instrument, and what is known of the water in its wood. Units and conventions as
// in cases/case/case.h.
namespace overbend::cases
{
struct Air
{
  double temperature = 293.15;
  double humidity = 0.5;        // relative, 0..1
  double film = 8;              // convection coefficient of a free face, W/(m^2 K)
  bool wrapped = false;         // all wood that the bar does not cover, in dry cloth
  double wrap_conductance = 4;  // of heat, through the wrap alone, W/(m^2 K)
  double wrap_resistance = 3e7; // to water, of the wrap alone, s/m of moisture content
};

// Which branch of the sorption curve the wood is on: it took up water, it dried, or in between.
enum class SorptionBranch { taking_up, drying, mean };

struct ClimatePoint
{
  double time = 0; // s from the start of the phase
  double temperature = 0, humidity = 0;
};

// Air that changes while a phase lasts: straight lines between points in order of time. See
// cases/case/climate.h for the air at a time.
struct Climate
{
  std::string file;    // table as named in the case; empty: the months of [climate]
  bool repeats = true; // a table that ends before the phase begins anew
  int month = 0;       // 0 = January: months of [climate] begin there
  std::vector<ClimatePoint> points;
  double period = 0; // s after which the points come again; 0: the air stays as it is at the last
  // On one evening of each week the air around the instrument is hot and keeps its water.
  double hot_hours = 0, hot_temperature = 0; // s of each week, K
};

// Air of one month as a mean.
struct MonthAir
{
  double temperature = 0, humidity = 0;
};

// Hot evenings of the months of [climate]: on a stage, in a car.
struct HotEvenings
{
  double hours = 0, temperature = 0; // s of each week, K
};

// What is known of the water in the wood at the start. None of content, humidity and past: the neck
// is in equilibrium with the room. More than one of them is refused.
struct Moisture
{
  std::optional<double> content;     // measured by a pin meter, kg/kg
  std::optional<double> humidity;    // of the air it lived in, 0..1
  std::optional<double> temperature; // of that air, K; empty: as the room
  double lived_for = 0;              // time in that air; before that as it was built
  // The neck lived in air that changed: in the months of [climate] for lived_for, until the middle
  // of climate_to (1 = January, 0: not told), or in a table from its first row to its last. It
  // began at rest with the first air.
  int climate_to = 0;
  Climate past; // points: resolved, time 0 is the beginning
  SorptionBranch branch = SorptionBranch::mean;
  double built_at = 0.47; // humidity of the shop that glued it together
};
} // namespace overbend::cases
