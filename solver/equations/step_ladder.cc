// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/step_ladder.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr unsigned deepest_cut = 14; // halvings below the first step
constexpr int largest_growth = 4;    // doublings at once
constexpr double safety = 0.7;       // share of the limit aimed at
} // namespace

int doublings(double error, double bulge, double limit)
{
  const double by_error = std::log2(safety * limit / std::max(error, 1e-30)) / 3;
  const double by_bulge = std::log2(safety * limit / std::max(bulge, 1e-30)) / 2;
  return static_cast<int>(std::floor(std::min({by_error, by_bulge, 100.})));
}

StepLadder::StepLadder(double time, double first_step, double longest_step)
    : duration(time), longest(longest_step)
{
  while (dt() > first_step)
    ++level;
  first = level;
  finest = first + deepest_cut;
}

double StepLadder::dt() const
{
  return std::ldexp(duration, -int(level));
}

double StepLadder::reached() const
{
  return std::ldexp(duration, -int(finest)) * double(position);
}

bool StepLadder::done() const
{
  return position == std::uint64_t(1) << finest;
}

void StepLadder::advance(int room)
{
  position += ticks();
  untried = false;
  // A longer step begins at a multiple of itself.
  for (int i = 0; i < std::min(room, largest_growth); ++i)
    if (may_lengthen() && position % (2 * ticks()) == 0)
      --level;
}

bool StepLadder::lengthened_first(int room)
{
  if (!untried || room < largest_growth || !may_lengthen())
    return false;
  for (int i = 0; i < largest_growth && may_lengthen(); ++i)
    --level;
  return true;
}

bool StepLadder::cut(int room)
{
  untried = false;
  level += std::clamp(-room, 1, 3);
  return level <= finest;
}
} // namespace overbend::solver
