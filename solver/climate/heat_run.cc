// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat_steps.h"
#include "solver/equations/step_ladder.h"

#include <cmath>
#include <sstream>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
enum class Regime { none, off, holding, full };

Regime regime(double power, const Thermostat &thermostat)
{
  return power <= 0 ? Regime::off : power >= thermostat.limit ? Regime::full : Regime::holding;
}

// The thermostat switches somewhere inside the step; a constant power over it then leaves the
// sensor's true path by about a quarter of what the change of power makes.
bool switches_too_far(const HeatStep &step, double last_power, Regime last, const Thermostat &set,
                      double sensor_rise_per_watt, double limit)
{
  return last != Regime::none && regime(step.power, set) != last &&
         std::abs(step.power - last_power) * sensor_rise_per_watt / 4 > 5 * limit;
}

[[noreturn]] void give_up(double time, double dt)
{
  std::ostringstream out;
  out << "The heat equations cannot be followed " << time
      << " s after the start, not even in steps "
      << "of " << dt << " s";
  throw std::runtime_error(out.str());
}
} // namespace

std::vector<HeatMoment> run_heat(HeatStepper &stepper, double duration,
                                 const std::optional<Thermostat> &thermostat,
                                 const HeatStepLimits &limits)
{
  std::vector<HeatMoment> moments;
  if (!(duration > 0))
    return moments;
  StepLadder ladder(duration, limits.first_step, limits.longest_step);
  const double begin = stepper.time();
  double last_power = 0;
  Regime last = Regime::none;
  while (!ladder.done()) {
    const double dt = ladder.dt();
    const HeatStep step = stepper.try_step(dt, thermostat);
    const int room = doublings(step.error, step.bulge, limits.error);
    const bool inexact = std::max(step.error, step.bulge) > limits.error;
    const bool switched = thermostat && ladder.above_first() &&
                          switches_too_far(step, last_power, last, *thermostat,
                                           stepper.sensor_rise(dt), limits.error);
    if (inexact || switched) {
      if (!ladder.cut(room))
        give_up(stepper.time(), ladder.dt());
    } else if (!ladder.lengthened_first(room)) {
      stepper.accept(step, dt);
      ladder.advance(room);
      last_power = step.power;
      if (thermostat)
        last = regime(step.power, *thermostat);
      moments.push_back({begin + ladder.reached(), step.temperature, step.power});
    }
  }
  return moments;
}
} // namespace overbend::solver
