// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/reading_at.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
Reading reading_at(const History &history, double time)
{
  const std::vector<StepRecord> &steps = history.steps;
  constexpr double round_off = 1e-3; // s
  const auto next = std::find_if(steps.begin(), steps.end(), [&](const StepRecord &step) {
    return step.time >= time - round_off;
  });
  if (next == steps.begin() || next == steps.end())
    throw std::logic_error("a reading outside its history");
  const auto before = next - 1;
  const double late = (time - before->time) / (next->time - before->time);
  Reading reading = before->reading;
  for (double Reading::*one :
       {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble, &Reading::twist})
    reading.*one += late * (next->reading.*one - before->reading.*one);
  return reading;
}
} // namespace overbend::solver
