// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/air.h"
#include "cases/case/neck_shape.h"

#include <string>

// The schedule, its phases, and what it is to reach. Units and conventions as in
// cases/case/case.h.
namespace overbend::cases
{
// A pull of the cords at the start of a phase. to_reading: the two take-ups are found so that the
// bench reads `bow` (centre, at Found::bow_fret) and `twist`. The plan overrides the numbers.
struct Pull
{
  enum class Kind { none, take_up, to_reading } kind = Kind::none;
  double take_up_bass = 0, take_up_treble = 0;
  double bow = 0, twist = 0;
  // Whether the plan's overbend is reached by this pull. A cold pull before a hot re-reading only
  // brings the neck straight: what it would take further cold is force for nothing.
  bool decides = true;
};

enum class PhaseKind {
  store,
  condition,
  clamp,
  heat,
  hold,
  reread,
  cool,
  release,
  rest,
  string_up,
  warm_free,
  play
};

// One phase, with everything that is on the bench and in the air while it lasts (already merged
// with what the phases before it left there).
struct Phase
{
  PhaseKind kind = PhaseKind::rest;
  std::string name; // as shown to the user, unique in the case
  double duration = 0;
  int line = 0; // line in the case file, 0 if the schedule is the default one
  Air air;
  bool strings = false;
  RodState rod = RodState::slack;
  bool cradle = false;
  bool cords = false;
  bool block = false; // stop block in place
  bool nut = true;    // nut in its slot
  bool heater = false;
  double bar_temperature = 0; // while heater is on; 0 under a parked iron, which nobody holds
  Pull pull;
  int pass = 1;    // which correction it belongs to: 2 from the second clamping on
  Climate climate; // play only; no points: `air` holds throughout
};

// What kitchen foil under the cloth of a wrap holds back of the wood's water, s/m of moisture
// content: the foil itself passes none, its overlaps and ends do [E].
constexpr double foil_resistance = 3e8;

// Durations and switches of the default schedule, used when the file lists no [[phase]]. Times in
// s.
struct Schedule
{
  bool warm_free = false;
  double warm_free_time = 0;
  double clamp = 0, heat = 0;
  bool reread = true;
  double reread_time = 0, hold = 0, cool = 0, release = 0, rest = 0;
  bool second_reread = false; // read hot once more, halfway through the hold of the first pass
  bool wrap = false;
  bool wrap_foil = false; // kitchen foil under the cloth: foil_resistance
  bool nut = false;
  double play = 0; // after the target's reading, in the air of [climate]
  int month = 0;   // in which that begins
};

struct Target
{
  double relief = 0; // strung, centre, at Found::bow_fret
  double twist = 0;
  double after_release = 0; // time of the target reading after release
  RodState rod = RodState::slack;
  double bow_tolerance = 0.02e-3;
  double twist_tolerance = 0.03 * 3.14159265358979323846 / 180;
};
} // namespace overbend::cases
