// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/air.h"
#include "cases/case/bench.h"
#include "cases/case/found.h"
#include "cases/case/heater.h"
#include "cases/case/instrument.h"
#include "cases/case/neck_shape.h"
#include "cases/case/phase.h"

#include <array>
#include <map>
#include <string>
#include <vector>

// The checked case: everything a case file says, in SI units (m, s, Pa, N, K), ready to use.
//
// Nothing downstream reads the file again. A member that has no value in the file holds the value
// of its preset or its declared default. std::optional means "the repairer does not know".
// Absolute temperatures are in K. Angles are in radians.
namespace overbend::cases
{
struct Numerics
{
  double resolution = 1;       // 1 is the default mesh; 2 has about twice the cells each way
  double bow_error = 0.002e-3; // error of a time step allowed in the bow
};

// What the file leaves open and a plan chooses; `simulate` takes the value at hand, the declared
// default. Nothing is open where the file lists its phases.
struct LeftOpen
{
  bool bar_temperature = false; // Heater::bar_temperature
  bool bar_ends = false;        // Heater::to, iron_to
  bool bar_width = false;       // Heater::width
  bool wrap = false;            // Schedule::wrap
  bool wrap_foil = false;       // Schedule::wrap_foil, Air::wrap_resistance
  bool hold = false;            // Schedule::hold
  bool second_reread = false;   // Schedule::second_reread
  bool device = false;          // what pulls the headstock down
  bool cradle = false;          // Bench::cradle_x
};

struct Case
{
  std::string title;
  std::string text; // the file, verbatim
  std::string file; // its name, as given
  std::string preset;
  // Line of each "section.key" (and of each "section") in the file; phases are "phase[1]" on,
  // strips "lamination[1]" on.
  std::map<std::string, int> lines;
  NeckShape neck;
  Glue board_glue, scarf_glue;
  Strings strings;       // to be put on after the repair
  Strings strings_found; // the ones the neck lived under
  Tuners tuners;
  Finish finish = Finish::unknown; // of the neck; the same as faces.back.kind
  FinishedFaces faces;
  Binding binding = Binding::unknown;
  Found found;
  FirstPass first_pass;
  Readings readings;
  Warp warp;
  Air room;
  Moisture moisture;
  GrainScatter scatter;
  std::array<MonthAir, 12> year; // indoor air, January first
  HotEvenings hot_evenings;      // within that
  Heater heater;
  Probe probe;
  Bench bench;
  Schedule schedule;
  bool phases_listed = false; // by the file; otherwise `phases` are those of the schedule
  LeftOpen left_open;
  std::vector<Phase> phases;
  Target target;
  Numerics numerics;
};

// Line of "section.key" in the case file; if the file does not have it, the line of its section,
// of the preset, or 1: where the reader should look first.
int line_of(const Case &result, const std::string &name);

// x of a fret: distance from the nut, by the equal-tempered rule x = L (1 - 2^(-n/12)).
double fret_position(double scale_length, int fret);
} // namespace overbend::cases
