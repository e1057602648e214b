// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"
#include "solver/history/step_control.h"
#include "solver/mechanics/step_climate.h"

namespace overbend::solver
{
// What the step control watches.
StepControl::Values controlled(const Reading &reading);

// The phases from a start, once (simulate in simulate.h).
class HistoryRun
{
public:
  HistoryRun(const NeckOnBench &neck, const std::vector<cases::Phase> &phases_,
             const StringPull &strings_, const ThermalHistory &heat_, const Progress &start,
             const SimulationOptions &options_);
  History run();

private:
  double warmth(const std::vector<double> &T) const;
  StepClimate climate(double from, double to) const;
  void start_phase(unsigned i);
  bool pull(const cases::Pull &wanted, const BenchSetup &setup, const std::vector<double> &T,
            std::vector<double> &u);
  void march(unsigned i);
  double one_step(unsigned i, double dt);
  std::vector<double> guess(double dt) const;
  std::vector<double> change_to(const std::vector<double> &u) const;
  void note_cut(unsigned i, double dt, const char *why);
  void finish_step(const std::vector<double> &u, const BenchSetup &setup);
  void record(unsigned i);
  void finish_phase(unsigned i);

  const cases::Case &the_case;
  const std::vector<cases::Phase> &phases;
  const Model &model;
  const Bench &bench;
  const BoardLines &lines;
  const StringPull &strings;
  const ThermalHistory &heat;
  Mechanics &mechanics;
  const SimulationOptions &options;
  Progress now;
  StepControl control;
  History history;
  std::vector<double> last_change; // of the displacement in the last step; empty after a change
  double last_dt = 0;
  double headstock_rests = 0; // m, its height before the cords came on
  double time = 0, phase_start = 0;
  bool line_ran_on = false; // of the pull at hand: PullProblem::ran_on
};
} // namespace overbend::solver
