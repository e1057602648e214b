// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/moisture_steps.h"

#include "solver/equations/step_ladder.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double temperature_slack = 0.2, moisture_slack = 1e-3, vapour_slack = 0.01;
constexpr unsigned most_passes = 4; // of the coefficients

double largest_difference(const std::vector<double> &a, const std::vector<double> &b)
{
  if (a.size() != b.size())
    return 1e300;
  double largest = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    largest = std::max(largest, std::abs(a[i] - b[i]));
  return largest;
}
} // namespace

MoistureStepper::MoistureStepper(MoistureSystem &the_system, MoistureDrive the_drive,
                                 std::vector<double> start, double time, double the_slack)
    : system(the_system), drive(std::move(the_drive)), clock(time), slack(the_slack),
      now(std::move(start))
{
  if (now.size() != system.size())
    throw std::logic_error("the moisture contents do not fit the equations of moisture");
}

// New coefficients if what they were made for has moved on; true if any are new.
bool MoistureStepper::renew(const std::vector<double> &T, const std::vector<double> &m,
                            const SurfaceAir &air, double dt)
{
  const bool moved = largest_difference(T, at_temperature) > slack * temperature_slack ||
                     largest_difference(m, at_moisture) > slack * moisture_slack ||
                     largest_difference(air.vapour, at_vapour) > slack * vapour_slack;
  if (moved) {
    system.set_coefficients(T, m, air.vapour);
    at_temperature = T;
    at_moisture = m;
    at_vapour = air.vapour;
  }
  if (!moved && dt == factor_dt)
    return false;
  matrix = system.diffusion;
  for (double &value : matrix.value)
    value *= tr_bdf2::diagonal * dt;
  for (unsigned n = 0; n < system.size(); ++n) // a node without wood keeps what it has
    matrix.at(n, n) += system.capacity[n] > 0 ? system.capacity[n] : 1;
  factor.factorise(matrix);
  factor_dt = dt;
  ++factored;
  return moved;
}

std::vector<double> MoistureStepper::guess(double dt) const
{
  std::vector<double> middle = now;
  if (!before.empty())
    for (std::size_t i = 0; i < now.size(); ++i)
      middle[i] += dt / 2 / last_dt * (now[i] - before[i]);
  return middle;
}

MoistureStep MoistureStepper::try_step(double dt)
{
  const std::vector<double> T = drive.temperature(clock, dt);
  const SurfaceAir air = drive.air(clock, dt);
  std::vector<double> middle = guess(dt);
  renew(T, middle, air, dt);
  MoistureStep step;
  tr_bdf2::Stages s;
  for (unsigned pass = 0;; ++pass) {
    s.rate0 = tr_bdf2::rate(system.diffusion, system.load(air.rest[0]), now);
    tr_bdf2::run(factor, system.diffusion, dt, now, system.load(air.rest[1]),
                 system.load(air.rest[2]), s);
    for (std::size_t i = 0; i < now.size(); ++i)
      middle[i] = (now[i] + s.at2[i]) / 2;
    // Without slack the coefficients are found to a millionth of what they matter.
    if (largest_difference(middle, at_moisture) <= std::max(slack, 1e-3) * moisture_slack ||
        pass == most_passes)
      break;
    renew(T, middle, air, dt);
  }
  s.rate1 = tr_bdf2::rate(system.diffusion, system.load(air.rest[1]), s.at1);
  s.rate2 = tr_bdf2::rate(system.diffusion, system.load(air.rest[2]), s.at2);
  const tr_bdf2::Judgement found = tr_bdf2::judge(factor, dt, now, s);
  step.error = found.error;
  step.bulge = found.bulge;
  step.inflow = dt * (tr_bdf2::shared *
                          (system.inflow(air.rest[0], now) + system.inflow(air.rest[1], s.at1)) +
                      tr_bdf2::diagonal * system.inflow(air.rest[2], s.at2));
  step.moisture = std::move(s.at2);
  return step;
}

void MoistureStepper::accept(const MoistureStep &step, double dt)
{
  before = std::move(now);
  now = step.moisture;
  last_dt = dt;
  clock += dt;
}

std::vector<MoistureMoment> run_moisture(MoistureStepper &stepper, double duration,
                                         const MoistureStepLimits &limits)
{
  std::vector<MoistureMoment> moments;
  if (!(duration > 0))
    return moments;
  StepLadder ladder(duration, limits.first_step, limits.longest_step);
  const double begin = stepper.time();
  while (!ladder.done()) {
    const double dt = ladder.dt();
    const MoistureStep step = stepper.try_step(dt);
    const int room = doublings(step.error, step.bulge, limits.error);
    if (std::max(step.error, step.bulge) > limits.error) {
      if (!ladder.cut(room)) {
        std::ostringstream out;
        out << "The moisture cannot be followed " << stepper.time()
            << " s after the start, not even in steps of " << ladder.dt() << " s";
        throw std::runtime_error(out.str());
      }
    } else if (!ladder.lengthened_first(room)) {
      stepper.accept(step, dt);
      ladder.advance(room);
      moments.push_back({begin + ladder.reached(), step.moisture, step.inflow});
    }
  }
  return moments;
}
} // namespace overbend::solver
