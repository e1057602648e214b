// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/commands/commands.h"
#include "solver/commands/progress.h"
#include "solver/plan/plan.h"

#include <chrono>
#include <string>

namespace overbend::solver
{
// What a long command shows while it works, and what it remembers of where the time went.
class RunWatch
{
public:
  explicit RunWatch(const CommandOptions &options);
  ~RunWatch() { end_stage(); }

  // Begins a stage of work that takes the run from one share done to another.
  void stage(const std::string &name, double from, double to);
  void end_stage();
  // A step of a history within the stage.
  void step(const cases::Case &the_case, const StepRecord &step);
  double seconds() const;

  // Prints where the time went, the counts and the peak memory, if asked for.
  void print_timing(const SolverCounts &counts);

private:
  using Clock = std::chrono::steady_clock;
  void show();

  const CommandOptions &options;
  ProgressLine line;
  ProgressState state;
  std::string name;
  double from = 0, to = 0;
  Clock::time_point run_start = Clock::now(), stage_start = Clock::now();
};
} // namespace overbend::solver
