// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/wood_law.h"

#include <functional>
#include <vector>

// The section of a bare beam of timber in changing air, cut into layers through its depth: water
// goes in and out at both faces, plane sections stay plane, the bending moment is held.
namespace overbend::tests
{
struct Weather
{
  double temperature, humidity; // K, 0..1
};
using Air = std::function<Weather(double time)>; // s from the start of a year

class BeamSection
{
public:
  // The water in the section has followed the air for three years up to `start` (s).
  BeamSection(const materials::Wood &wood, double depth, Air air, double start);

  // Bends the section at once by a moment that makes `stress` (Pa) in its faces.
  void load(double stress);
  // Follows the air for a time, water by days and mechanics by five of them.
  void follow(double time);

  double curvature() const { return bend; }
  double driest_mean() const { return driest; } // of the section's mean since loaded, kg/kg
  double dampest_mean() const { return dampest; }

private:
  void move_water(double to);
  void move_wood(double time);
  double height(std::size_t layer) const;

  materials::Wood wood;
  materials::WoodLaw law;
  double depth, layer;
  Air air;
  double now, moment = 0, bend = 0, driest = 1, dampest = 0;
  std::vector<double> moisture, moisture_of_wood; // of the water's step, of the wood's last step
  double temperature_of_wood;
  std::vector<materials::WoodState> state;
};
} // namespace overbend::tests
