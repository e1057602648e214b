// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heat_steps.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr unsigned deepest_cut = 14; // halvings below the first step
constexpr int largest_growth = 4;    // doublings at once
constexpr double safety = 0.7;       // share of the limit aimed at

// How many doublings (negative: halvings) of the step bring error and bulge to the limit. The error
// grows with the third power of the step, the bulge with the second.
int doublings(const HeatStep &step, double limit)
{
  const double by_error = std::log2(safety * limit / std::max(step.error, 1e-30)) / 3;
  const double by_bulge = std::log2(safety * limit / std::max(step.bulge, 1e-30)) / 2;
  return static_cast<int>(std::floor(std::min({by_error, by_bulge, 100.})));
}

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
// The place within the duration: it is divided into 2^finest ticks, a step is 2^(finest - level).
class Ladder
{
public:
  Ladder(double time, const HeatStepLimits &step_limits) : duration(time), limits(step_limits)
  {
    while (dt() > limits.first_step)
      ++level;
    first = level;
    finest = first + deepest_cut;
  }

  double dt() const { return std::ldexp(duration, -int(level)); }
  double reached() const { return std::ldexp(duration, -int(finest)) * position; }
  bool done() const { return position == std::uint64_t(1) << finest; }
  bool above_first() const { return level < first; }

  void advance(int room)
  {
    position += ticks();
    untried = false;
    // A longer step begins at a multiple of itself.
    for (int i = 0; i < std::min(room, largest_growth); ++i)
      if (may_lengthen() && position % (2 * ticks()) == 0)
        --level;
  }

  // Where nothing much happens, looks for a longer first step before taking one.
  bool lengthened_first(int room)
  {
    if (!untried || room < largest_growth || !may_lengthen())
      return false;
    for (int i = 0; i < largest_growth && may_lengthen(); ++i)
      --level;
    return true;
  }

  void cut(int room, double time)
  {
    untried = false;
    level += std::clamp(-room, 1, 3);
    if (level > finest)
      give_up(time, dt());
  }

private:
  std::uint64_t ticks() const { return std::uint64_t(1) << (finest - level); }
  bool may_lengthen() const { return level > 0 && 2 * dt() <= limits.longest_step; }

  double duration;
  HeatStepLimits limits;
  unsigned first = 0, finest = 0, level = 0;
  std::uint64_t position = 0;
  bool untried = true;
};
} // namespace

std::vector<HeatMoment> run_heat(HeatStepper &stepper, double duration,
                                 const std::optional<Thermostat> &thermostat,
                                 const HeatStepLimits &limits)
{
  std::vector<HeatMoment> moments;
  if (!(duration > 0))
    return moments;
  Ladder ladder(duration, limits);
  const double begin = stepper.time();
  double last_power = 0;
  Regime last = Regime::none;
  while (!ladder.done()) {
    const double dt = ladder.dt();
    const HeatStep step = stepper.try_step(dt, thermostat);
    const int room = doublings(step, limits.error);
    const bool inexact = std::max(step.error, step.bulge) > limits.error;
    const bool switched = thermostat && ladder.above_first() &&
                          switches_too_far(step, last_power, last, *thermostat,
                                           stepper.sensor_rise(dt), limits.error);
    if (inexact || switched)
      ladder.cut(room, stepper.time());
    else if (!ladder.lengthened_first(room)) {
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
