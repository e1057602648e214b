// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/simulate.h"

namespace overbend::solver
{
// Pulling the cords until the bench reads what is wanted, within an instant step that has begun.
struct PullProblem
{
  const Bench &bench;
  const BoardLines &lines;
  Mechanics &mechanics;
  const BenchSetup &setup;
  BenchOffsets offsets;             // take_up is found
  std::vector<double> load;
  double warmth;
};

// Finds the two take-ups that bring centre bow (m) and twist (rad) to the wanted readings. When one
// cord would have to push, it is left slack, the other one brings the bow, and the result is false:
// the twist is out of reach. `u` is the first guess and becomes the displacement found.
bool pull_to(PullProblem &problem, double bow, double twist, std::vector<double> &u);

// Adds to a unit's take-ups what makes its readings follow its own change of bow and twist.
void pull_unit(PullProblem &problem, Unit &unit);
}  // namespace overbend::solver
