// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/neck_shape.h"

// What gives the heat, and the probe that shows it. Units and conventions as in
// cases/case/case.h.
namespace overbend::cases
{
// What gives the heat. thermostat, blanket: held by a thermostat within the power, over a part of
// the bar or over its whole length. dabbed: an iron by hand, held by what a thermometer shows, the
// power that of the hand on average. parked: an iron left on the bar under its own thermostat; what
// the bar comes to is then nobody's choice.
enum class HeatSource { thermostat, parked, dabbed, blanket };

// Which thermometer the heat is held by. probe: the one of [probe], and the bar is never taken
// above its own temperature, read by a second one.
enum class HeldBy { bar, probe };

// Underside of the bar: flat, or shaped (or packed) to the board's radius.
enum class Underside { flat, shaped };

// Whether the bar lies on frets or on bare wood.
enum class BarOnFrets { in, out };

struct Heater
{
  BarMaterial metal = BarMaterial::aluminium;
  double width = 0, thickness = 0; // section of the bar
  double from = 0, to = 0;         // x of its ends; from < 0 overhangs the nut
  Underside underside = Underside::flat;
  BarOnFrets frets = BarOnFrets::in;
  double contact = 0; // conductance to the board top where the bar touches, W/(m^2 K)
  double film = 10;   // loss from its top, W/(m^2 K)
  HeatSource source = HeatSource::thermostat;
  HeldBy held_by = HeldBy::bar;
  double iron_from = 0, iron_to = 0; // part of the bar that the iron touches
  double power = 0;                  // limit of the iron, W; not of a parked one
  double iron_temperature = 0;       // of a parked iron's soleplate
  double iron_contact = 0;           // from a parked iron to the bar, W/(m^2 K)
  double overshoot = 0;              // K, by which what holds the heat may pass its figure
  double bar_temperature = 0;        // held at bar_sensor, or never passed there (HeldBy)
  double bar_sensor = 0;             // x of the thermostat's sensor on the bar
  double overhang_contact = 0;       // from the bar over the nut to the headstock's face, W/(m^2 K)
};

struct Probe
{
  double x = 0;
  double across = 0;  // -1 bass edge .. +1 treble edge
  double height = 0;  // z; 0 is the glue plane
  double hold_at = 0; // held by the probe: the temperature it is to show
};
} // namespace overbend::cases
