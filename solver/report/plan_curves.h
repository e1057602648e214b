// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/sampling.h"
#include "solver/plan/bench_heat.h"

#include <optional>
#include <vector>

namespace overbend::solver
{
// What is not a reading of the bench but explains it: temperatures through the neck at the probe's
// place along it, and slip of the board's line at its ends, at the end of each time step.
struct CurvePoint
{
  double time = 0; // s since the start of the first phase
  unsigned phase = 0;
  double probe = 0;                                             // K
  std::optional<double> bar;                                    // K
  double board_top = 0, glue_line = 0, mid_shaft = 0, back = 0; // K
  double slip_nut_end = 0, slip_body_end = 0;                   // m, board against shaft, to body +
};

// Records them while a history runs; one that begins again (the next full run) begins again here.
// The places lie half way out to the treble edge, where no rod channel is; the back is taken
// 0.5 mm under its surface. A probe beyond the shaft is taken at the nearest end of it.
class CurveRecorder
{
public:
  // Throws std::runtime_error if a place is off the neck.
  CurveRecorder(const Workbench &workbench, const ThermalHistory &heat);
  void observe(const StepRecord &step, const MechanicsState &state);

  std::vector<CurvePoint> points;

private:
  const Workbench &workbench;
  const ThermalHistory &heat;
  HeatReader reader;
  Sample board_top, glue_line, mid_shaft, back;
};
} // namespace overbend::solver
