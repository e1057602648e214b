// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/sampling.h"
#include "solver/plan/plan.h"

#include <optional>
#include <vector>

// The temperatures that a bench can read, and those that decide whether the board can slide.
namespace overbend::solver
{
class MoistureHistory;

// Moisture contents (kg/kg): at the probe's place; and at its x, half-way from the centre line to
// the edge, on the back of the neck (skin) and halfway between there and the board's line (core).
struct MoistureReading
{
  double probe = 0, skin = 0, core = 0;
};

// What probe and thermostat show at one time, K.
struct HeatReading
{
  double time = 0; // s since the start of the first phase
  double probe = 0;
  std::optional<double> bar;               // at the thermostat's sensor; empty without a bar
  std::optional<MoistureReading> moisture; // empty where it is not followed
};

// Reads a history of temperature where the case puts the probe and the bar's sensor. The places are
// found once. Throws std::runtime_error if the probe is off the neck.
class HeatReader
{
public:
  HeatReader(const Workbench &workbench, const ThermalHistory &heat,
             const MoistureHistory *moisture = nullptr);
  // At a time when the bar is put on or taken away: as it is afterwards.
  HeatReading at(double time) const;
  // ... as it was before.
  HeatReading just_before(double time) const;

private:
  HeatReading between(const ThermalState &a, const ThermalState &b, double time) const;

  const ThermalHistory &heat;
  const MoistureHistory *moisture;
  Sample probe, skin, core;
  std::vector<unsigned> bar_node; // two, or none
  std::vector<double> bar_weight;
};

// The board's glue line near the end of the last heated phase: mean temperature (K) over the 20 mm
// at either end and around the middle, and what is left of its shear modulus (Pa) after that long
// at this temperature. 20 mm of hard line at both ends lock the board, however soft the middle
// (trade: closed form of locked ends [E]). The modulus is that at the humidity the glue is at rest
// with there: the edges of a heated board dry, and a dried line softens later.
struct LineWarmth
{
  double nut_end = 0, middle = 0, body_end = 0;                 // K
  double nut_modulus = 0, middle_modulus = 0, body_modulus = 0; // Pa
  double hot_time = 0;                                          // s, all heated phases
  // Relative humidity (0..1) the glue is at rest with: mean of the line at the start of the history
  // and then, and of its driest place then.
  double humidity_before = 0, humidity = 0, driest = 0;
  double softens_before = 0, softens_driest = 0; // K, there
  bool ends_lock() const;
  bool hard_throughout() const;
};

// Moduli after two hours: a line softer than this slides, a line harder than that locks
// (retained shares of a two-layer beam with both ends so: 0.20 at 1 MPa, 0.02 at 10 MPa [E]).
constexpr double sliding_modulus = 1e6, locking_modulus = 10e6;

// moisture may be null: the line stays at the humidity of the room.
LineWarmth line_warmth(const Workbench &workbench, const ThermalHistory &heat,
                       const MoistureHistory *moisture);
} // namespace overbend::solver
