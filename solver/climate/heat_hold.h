// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat_steps.h"
#include "solver/model/sampling.h"

#include <optional>
#include <vector>

// Heat held by a probe that sits away from the bar.
//
// Between iron and probe lie minutes, so neither a hand nor a controller can hold the probe by
// switching the iron at it: it would see what it did long after. Both thermometers are looked at
// every two minutes (five once the probe stands still at its figure), and the bar is set for the
// time until the next look,
//
//   set <- set + dt/tau_i (hold_at - probe - lead d(probe)/dt),   set <= bar_stop,
//
// tau_i 400 s and lead 10 min: with the ten minutes or so that the edge of a line lags behind the
// bar this comes to rest without swinging (two equal real roots for a lag of 10 min and a share of
// 0.7 of the bar's excess). The iron holds the bar there within its power. Choices [E]: another
// hand gets there faster or slower, and ends at the same place.
namespace overbend::solver
{
struct ProbeHold
{
  Sample probe;
  double hold_at = 0;  // K
  double bar_stop = 0; // K, at the bar's sensor: never above it
  double power = 0;    // W
};

// What was found at the last look; carried from one heated phase into the next.
struct LastLook
{
  double time = 0, probe = 0; // s, K
  double set = 0;             // K, of the bar
};

// Steps over `duration`; last: of the phase before, or of nothing if it did not hold the heat.
std::vector<HeatMoment> hold_by_probe(const HeatSystem &system, HeatStepper &stepper,
                                      double duration, const ProbeHold &hold,
                                      const HeatStepLimits &limits, std::optional<LastLook> &last);
} // namespace overbend::solver
