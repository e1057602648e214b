// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <deque>

namespace overbend::solver
{
// Chooses time steps from how the readings bend: a step of second order errs by about
// dt^3/12 |d3 y/dt3|, and the third derivative is taken from the last four values. From three,
// what dies out within the step is thought of: d3 y/dt3 = (d2 y/dt2)/dt.
class StepControl
{
public:
  static constexpr unsigned n_values = 4;
  using Values = std::array<double, n_values>;

  explicit StepControl(double allowed_error) : allowed(allowed_error) {}

  // Forgets the past: after each change on the bench.
  void restart(double time, const Values &values);

  // Error of the step that leads to these values, as a share of the allowed one; 0 while the past
  // is too short to tell.
  double error(double time, const Values &values) const;

  void accept(double time, const Values &values);

  // Length of the next step, from the last one and its error.
  double next(double last_step, double error) const;

private:
  double allowed;
  std::deque<double> times;
  std::deque<Values> past;
};
} // namespace overbend::solver
