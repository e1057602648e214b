// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat.h"
#include "solver/climate/moisture.h"
#include "solver/history/neck_on_bench.h"
#include "solver/readings/reading.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace overbend::solver
{
// A unit history: the increment that a small change of the clamp settings makes, carried along with
// the base on its steps, states and matrices.
struct Unit
{
  // Change of the readings pulled to (Pull::to_reading, where the pull decides) and of the take-ups
  // (Pull::take_up).
  double bow = 0, twist = 0;
  std::array<double, 2> take_up{};
  MechanicsState state;
  BenchOffsets offsets;
};

struct StepRecord
{
  double time = 0; // s since the start of the first phase, at the end of the step
  unsigned phase = 0;
  Reading reading;
  BenchForces forces;
  // One a pull of the device (pull_names). That of a pull that hangs slack says nothing: nobody
  // takes it up.
  std::array<double, 2> take_up{};
  std::array<bool, 2> slack{}; // on the bench, but carries nothing
  std::vector<Reading> unit;   // increments, one a unit history
};

struct PhaseEnd
{
  unsigned phase = 0;
  double time = 0;
  BoardShape shape_at_start, shape; // after the instant change at its start, and at its end
  Reading reading_at_start, reading;
  std::array<double, 2> take_up{}; // at its end
  // Both readings asked for were brought about. If not, the bow was and the twist is out of reach:
  // a cord would have to push, or the device sets no twist (sets_twist).
  bool pull_reached = true;
  std::array<double, 2> largest_cord{}; // N, while it lasted
  // Where a stop block was put under the headstock at its start: how far below the place between
  // the cords where the headstock rests unclamped, m.
  std::optional<double> block_below;
};

// Everything that moves on in time.
struct Progress
{
  MechanicsState state;
  BenchSetup setup;
  BenchOffsets offsets;
  std::vector<Unit> units;
};

struct History
{
  std::vector<StepRecord> steps;
  std::vector<PhaseEnd> phases;
  Progress end;
  Progress kept;                  // at the end of SimulationOptions::keep_after
  std::vector<std::string> notes; // steps that were cut, and why
};

struct SimulationOptions
{
  double bow_error = 2e-6;                   // m, allowed in one step
  double first_step = 20;                    // s, after each change on the bench
  double largest_log_shift = 0.7;            // change of ln a in a step, in any hot glue line
  const MoistureHistory *moisture = nullptr; // of the same phases; null: as the neck was built
  std::optional<unsigned> keep_after;        // phase at whose end the state is kept
  // Called after each accepted step.
  std::function<void(const StepRecord &, const MechanicsState &)> observe;
};

// Runs the phases from a start. `strings` are on in the phases that say so. Throws NotConverged
// when a step fails however small it is cut.
History simulate(const NeckOnBench &neck, const std::vector<cases::Phase> &phases,
                 const StringPull &strings, const ThermalHistory &heat, const Progress &start,
                 const SimulationOptions &options = {});

Reading read(const BoardLines &lines, const std::vector<double> &displacement);

struct NotConverged : std::runtime_error
{
  using std::runtime_error::runtime_error;
};
} // namespace overbend::solver
