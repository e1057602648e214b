// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/step_control.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace overbend::solver
{
namespace
{
constexpr double most_growth = 4, most_cut = 0.3, safety = 0.9;
}

void StepControl::restart(double time, const Values &values)
{
  times = {time};
  past = {values};
}

double StepControl::error(double time, const Values &values) const
{
  const std::size_t known = times.size();
  if (known < 2)
    return 0;
  std::vector<double> t(times.begin(), times.end());
  t.push_back(time);
  const double dt = time - times.back();
  double largest = 0;
  for (unsigned k = 0; k < n_values; ++k) {
    std::vector<double> d;
    for (const Values &p : past)
      d.push_back(p[k]);
    d.push_back(values[k]);
    for (std::size_t order = 1; order <= known; ++order)
      for (std::size_t i = known; i >= order; --i)
        d[i] = (d[i] - d[i - 1]) / (t[i] - t[i - order]);
    // The third divided difference is a sixth of the third derivative, the second half of the
    // second one.
    const double third = known > 2 ? 6 * d[known] : 2 * d[known] / dt;
    largest = std::max(largest, std::abs(third) * std::pow(dt, 3) / 12);
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
