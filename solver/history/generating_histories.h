// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"

#include <vector>

// Histories that bring a neck from as it was built to a found shape.
namespace overbend::solver
{
// Loads of a generating history: the strings, a moment on the headstock, or the clamp; and the rod:
// slack, with the force it is set to, or seized: a spring at rest, unless it pulls evenly.
struct Cause
{
  const StringPull *strings = nullptr;
  cases::RodState rod = cases::RodState::slack;
  bool rod_pulls_evenly = false;
  std::vector<double> load; // nodal, N; empty: none
  // The case's device and cradle, each of its pulls taken up by this much, m; 0: off the bench.
  double take_up = 0;
  bool nut = true; // in its slot
};

// 1 N m about the neck's axis, spread over the headstock's face.
Cause torque(const Model &model);

// A seized rod, which nothing takes out of the neck: it pulls evenly, with the force it was found
// with. Nothing for any other rod.
Cause seized_rod(const cases::Case &the_case);

// Pure kinds of warp, each from the unstressed neck at room temperature and as damp as built.
// `stays` is in the neck throughout, with swollen() and bring_to(): their states are in equilibrium
// with it; all others are in equilibrium without load. All throw NotConverged.
class Generator
{
public:
  explicit Generator(const NeckOnBench &neck, Cause stays = {});

  // Slip: loaded while the line is soft and the wood elastic, locked, unloaded.
  MechanicsState slip(const Cause &cause);
  // Wood creep: loaded for a time (s) on a frozen line, unloaded.
  MechanicsState creep(const Cause &cause, double time);
  // Rest (s) under nothing but what is in the neck, on a frozen line.
  void rest(MechanicsState &state, double duration, const Cause &in_it = {});
  // At once from as it was built to other moisture contents, on a hard line.
  MechanicsState swollen(const std::vector<double> &moisture);
  // The same for a neck with a history, that comes to rest.
  void bring_to(MechanicsState &state, const std::vector<double> &from,
                const std::vector<double> &to);
  // Reading of an instant load on the unstressed neck, with a bonded line.
  Reading elastic(const Cause &cause);
  // ... with a line that slips freely: the last slip() while it was loaded.
  const Reading &loaded() const { return loaded_reading; }
  // Sum of the device's pulls (N) in the last elastic(), or the last slip() while it was loaded.
  double pull() const { return loaded_pull; }

private:
  double hottest_softening() const;
  void at_once(MechanicsState &state, const StepClimate &climate);
  void step(MechanicsState &state, const Cause &cause, double dt, double glue_temperature);
  double pull_of(const Cause &cause, const MechanicsState &state) const;

  const Model &model;
  const Bench &bench;
  const BoardLines &lines;
  Mechanics &mechanics;
  Cause stays;
  std::vector<double> room_temperature;
  Reading loaded_reading;
  double loaded_pull = 0;
};

// The hot store as it was: strings on, hot air that keeps the water of the room's, cooled with the
// strings on, strings off and `rest` (s) since. `moisture`: nodal moisture contents it begins
// with and is read with, and `swollen` the state that they make (Generator::swollen). In the open
// (Warp::kept_in) the air of the store dries the wood meanwhile and with it the line; in a closed
// case both keep their water. Without moisture everything stays as built. A seized rod pulls evenly
// throughout, as in `swollen`. What comes back is what the history adds to that state. Throws
// NotConverged.
MechanicsState hot_history(const NeckOnBench &neck, const StringPull &strings,
                           const std::vector<double> &moisture, const MechanicsState &swollen,
                           double rest);
} // namespace overbend::solver
