// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat_steps.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using tr_bdf2::add;
using tr_bdf2::diagonal;
using tr_bdf2::shared;
constexpr std::size_t kept_matrices = 3; // one factor of a neck takes some 50 MB
constexpr unsigned most_passes = 30;     // of the radiation

std::vector<double> minus(std::vector<double> y, const std::vector<double> &x)
{
  add(y, -1, x); // x may be empty: nothing to take off
  return y;
}
} // namespace

HeatStepper::HeatStepper(const HeatSystem &heat_system, std::vector<double> start, double time,
                         double radiation_tolerance)
    : system(heat_system), tolerance(radiation_tolerance), clock(time), now(std::move(start))
{
  if (now.size() != system.size())
    throw std::logic_error("the temperatures do not fit the heat equations");
}

HeatStepper::StepMatrix &HeatStepper::matrix_for(double dt)
{
  for (auto m = matrices.begin(); m != matrices.end(); ++m)
    if (m->dt == dt) {
      matrices.splice(matrices.begin(), matrices, m);
      return matrices.front();
    }
  if (matrices.size() < kept_matrices)
    matrices.emplace_front();
  else // the oldest one keeps its ordering
    matrices.splice(matrices.begin(), matrices, std::prev(matrices.end()));
  StepMatrix &m = matrices.front();
  m.dt = dt;
  SparseMatrix sum = system.capacity;
  for (std::size_t k = 0; k < sum.value.size(); ++k)
    sum.value[k] += diagonal * dt * system.conduction.value[k];
  m.factor.factorise(sum);
  ++factored;
  m.unit1.clear();
  m.unit2.clear();
  return m;
}

std::vector<double> HeatStepper::rate(const std::vector<double> &load,
                                      const std::vector<double> &T) const
{
  return tr_bdf2::rate(system.conduction, load, T);
}

// Both stages for 1 W from an even temperature of zero.
void HeatStepper::find_unit_answer(StepMatrix &m) const
{
  const std::vector<double> &watt = system.unit_power;
  m.unit1.assign(watt.size(), 0.);
  add(m.unit1, 2 * diagonal * m.dt, watt);
  m.factor.solve(m.unit1);
  m.unit2.assign(watt.size(), 0.);
  add(m.unit2, (shared + diagonal) * m.dt, watt);
  add(m.unit2, shared * m.dt, rate(watt, m.unit1));
  m.factor.solve(m.unit2);
  solved += 2;
}

double HeatStepper::sensor_rise(double dt)
{
  return system.sensor(matrix_for(dt).unit2);
}

double HeatStepper::add_power(const StepMatrix &m, const Thermostat &thermostat,
                              tr_bdf2::Stages &s) const
{
  const double missing = thermostat.temperature - system.sensor(s.at2);
  const double answer = system.sensor(m.unit2);
  double power = missing > 0 ? thermostat.limit : 0; // no answer at the sensor yet: on or off
  if (answer > 0)
    power = std::clamp(missing / answer, 0., thermostat.limit);
  add(s.at1, power, m.unit1);
  add(s.at2, power, m.unit2);
  return power;
}

std::vector<double> HeatStepper::guess(double dt) const
{
  std::vector<double> later = now;
  if (!before.empty()) {
    add(later, dt / last_dt, now);
    add(later, -dt / last_dt, before);
  }
  return later;
}

HeatStep HeatStepper::try_step(double dt, const std::optional<Thermostat> &thermostat)
{
  StepMatrix &m = matrix_for(dt);
  if (thermostat && m.unit1.empty())
    find_unit_answer(m);
  const std::vector<double> fixed0 = system.load(clock),
                            fixed1 = system.load(clock + tr_bdf2::first_stage * dt),
                            fixed2 = system.load(clock + dt);
  const std::vector<double> start = rate(minus(fixed0, system.radiation(now)), now);
  std::vector<double> radiation1 = system.radiation(guess(tr_bdf2::first_stage * dt)),
                      radiation2 = system.radiation(guess(dt));
  tr_bdf2::Stages s;
  double power = 0;
  for (unsigned pass = 0;; ++pass) {
    s.rate0 = start;
    tr_bdf2::run(m.factor, system.conduction, dt, now, minus(fixed1, radiation1),
                 minus(fixed2, radiation2), s);
    solved += 2;
    if (thermostat)
      power = add_power(m, *thermostat, s);
    const auto new1 = system.radiation(s.at1), new2 = system.radiation(s.at2);
    const double change =
        std::max(system.surface_change(radiation1, new1), system.surface_change(radiation2, new2));
    radiation1 = new1;
    radiation2 = new2;
    if (!(change > tolerance))
      break;
    if (pass == most_passes)
      throw std::runtime_error("The heat radiated by the surfaces cannot be found");
  }
  s.rate1 = rate(minus(fixed1, radiation1), s.at1);
  s.rate2 = rate(minus(fixed2, radiation2), s.at2);
  if (power > 0)
    for (auto *r : {&s.rate0, &s.rate1, &s.rate2})
      add(*r, power, system.unit_power);
  return judge(m, dt, power, s);
}

HeatStep HeatStepper::judge(const StepMatrix &m, double dt, double power,
                            const tr_bdf2::Stages &s) const
{
  ++solved;
  try {
    const tr_bdf2::Judgement found = tr_bdf2::judge(m.factor, dt, now, s);
    return {s.at2, power, found.error, found.bulge};
  } catch (const std::runtime_error &fault) {
    std::ostringstream out;
    out << "A temperature is not right " << clock + dt << " s after the start: " << fault.what();
    throw std::runtime_error(out.str());
  }
}

void HeatStepper::accept(const HeatStep &step, double dt)
{
  before = std::move(now);
  now = step.temperature;
  last_dt = dt;
  clock += dt;
}
} // namespace overbend::solver
