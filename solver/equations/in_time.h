// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

// Looking up a time in a list of states that have a member `time`, in ascending order; several may
// have the same time.
namespace overbend::solver
{
struct PlaceInTime
{
  std::size_t before = 0; // the last state not after the time
  double share = 0;       // of the way to the next one, 0 at the last
};

// Throws std::out_of_range before the first and after the last state; `what` names the states.
template <typename State>
PlaceInTime place_in_time(const std::vector<State> &states, double time, const char *what)
{
  const double slack = 1e-9 * (1 + std::abs(time)); // round-off of summed durations
  if (states.empty() || time < states.front().time - slack || time > states.back().time + slack)
    throw std::out_of_range(std::string("no ") + what + " known at " + std::to_string(time) + " s");
  const auto after = std::upper_bound(states.begin(), states.end(), time,
                                      [](double t, const State &s) { return t < s.time; });
  if (after == states.begin())
    return {0, 0};
  const std::size_t before = std::size_t(after - states.begin()) - 1;
  if (after == states.end())
    return {before, 0};
  return {before, (time - states[before].time) / (after->time - states[before].time)};
}

// a + share (b - a).
inline std::vector<double> between(std::vector<double> a, const std::vector<double> &b,
                                   double share)
{
  for (std::size_t i = 0; i < a.size(); ++i)
    a[i] += share * (b[i] - a[i]);
  return a;
}
} // namespace overbend::solver
