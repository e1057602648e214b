// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/plan.h"
#include "solver/strength/peaks.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// A glue line of the neck, by its name: "board", "scarf", "tongue".
struct LineState
{
  std::string name;
  LineEnds ends;
};

// What the readings of one moment are made from beside the few of a StepRecord: the shape of the
// board, the glue lines at their ends, and how much of its strength each region then uses.
struct BenchState
{
  double time = 0; // s since the start of the first phase
  unsigned phase = 0;
  BoardShape shape;
  std::vector<LineState> line; // those the neck has
  RegionUse use;               // as in a test of 5 minutes, however long it has been held
};

BenchState bench_state(const Workbench &workbench, const MechanicsState &state,
                       const std::vector<double> &temperature, const std::vector<double> &moisture);

// Keeps one a step while a history runs; one that begins again (the next full run) begins again
// here.
class BenchRecorder
{
public:
  BenchRecorder(const Workbench &workbench, const ThermalHistory &heat,
                const MoistureHistory *moisture = nullptr)
      : workbench_(workbench), heat_(heat), moisture_(moisture)
  {}
  void observe(const StepRecord &step, const MechanicsState &state);
  // The neck before the first phase.
  BenchState at_start(const MechanicsState &state) const;

  std::vector<BenchState> states;

private:
  const Workbench &workbench_;
  const ThermalHistory &heat_;
  const MoistureHistory *moisture_;
};
} // namespace overbend::solver
