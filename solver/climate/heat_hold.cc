// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat_hold.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double often = 120, seldom = 300;       // s between two looks
constexpr double integral_time = 400, lead = 600; // s
// The bar's figure runs no further ahead of the bar, or behind it, than this: an iron that is too
// weak, or a bar that cools slowly, does not save up what it could not do. K.
constexpr double ahead = 12, behind = 6;

// The bar's figure until the next look, which is `dt` away.
double bar_figure(const ProbeHold &hold, const LastLook &last, double time, double probe,
                  double bar, double dt)
{
  const double rate = time > last.time ? (probe - last.probe) / (time - last.time) : 0;
  const double wanted = last.set + dt / integral_time * (hold.hold_at - probe - lead * rate);
  return std::min(std::clamp(wanted, bar - behind, bar + ahead), hold.bar_stop);
}

bool stands_still(const ProbeHold &hold, const LastLook &last, double time, double probe)
{
  constexpr double near = 0.5, slow = 0.1 / 60; // K, K/s
  return time > last.time && std::abs(probe - hold.hold_at) < near &&
         std::abs(probe - last.probe) < slow * (time - last.time);
}
} // namespace

std::vector<HeatMoment> hold_by_probe(const HeatSystem &system, HeatStepper &stepper,
                                      double duration, const ProbeHold &hold,
                                      const HeatStepLimits &limits, std::optional<LastLook> &last)
{
  std::vector<HeatMoment> moments;
  const double begin = stepper.time(), end = begin + duration;
  HeatStepLimits within = limits;
  double time = begin;
  while (time < end) {
    const std::vector<double> &now = stepper.temperature();
    const double bar = system.sensor(now), probe = hold.probe.value(now);
    if (!last)
      last = LastLook{time, probe, bar};
    const double look = stands_still(hold, *last, time, probe) ? seldom : often;
    // No crumb of a look at the end.
    const double dt = end - time < 1.5 * look ? end - time : look;
    last = LastLook{time, probe, bar_figure(hold, *last, time, probe, bar, dt)};
    for (HeatMoment &moment : run_heat(stepper, dt, Thermostat{last->set, hold.power}, within))
      moments.push_back(std::move(moment));
    // After the first one the bar moves little from look to look: fewer steps, the same factors.
    within.first_step = std::max(within.first_step, often / 4);
    time = dt < end - time ? time + dt : end;
  }
  if (!moments.empty())
    moments.back().time = end;
  return moments;
}
} // namespace overbend::solver
