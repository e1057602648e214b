// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/step_control.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double most_growth = 2, most_cut = 0.3, safety = 0.9;
}

void StepControl::restart(double time, const Values &values)
{
  times = {time};
  past = {values};
}

double StepControl::error(double time, const Values &values) const
{
  if (times.size() < 3)
    return 0;
  const std::size_t n = times.size();
  const double t[4] = {times[n - 3], times[n - 2], times[n - 1], time};
  double largest = 0;
  for (unsigned k = 0; k < n_values; ++k) {
    double d[4] = {past[n - 3][k], past[n - 2][k], past[n - 1][k], values[k]};
    for (unsigned order = 1; order < 4; ++order)
      for (unsigned i = 3; i >= order; --i)
        d[i] = (d[i] - d[i - 1]) / (t[i] - t[i - order]);
    // Third divided difference = y'''/6.
    largest = std::max(largest, std::abs(6 * d[3]) * std::pow(t[3] - t[2], 3) / 12);
  }
  return largest / allowed;
}

void StepControl::accept(double time, const Values &values)
{
  times.push_back(time);
  past.push_back(values);
  if (times.size() > 3) {
    times.pop_front();
    past.pop_front();
  }
}

double StepControl::next(double last_step, double error) const
{
  const double factor = error > 0 ? safety * std::cbrt(1 / error) : most_growth;
  return last_step * std::clamp(factor, most_cut, most_growth);
}
} // namespace overbend::solver
