// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"

namespace overbend::solver
{
// Pulling until the bench reads what is wanted, within an instant step that has begun.
struct PullProblem
{
  const Bench &bench;
  const BoardLines &lines;
  Mechanics &mechanics;
  const BenchSetup &setup;
  BenchOffsets offsets; // take_up is found
  std::vector<double> load;
  double warmth;
  // In the clamp since before, and hot: the line may have let the neck run on past the reading.
  // Then it is left there with everything that pulls hanging loose.
  bool ran_on = false;
};

struct PullResult
{
  bool reached = false;        // both readings; the bow always is, unless the neck ran past it
  std::array<bool, 2> slack{}; // cords that would have to push and were left slack
};

// Finds the take-ups that bring centre bow (m) and twist (rad) to the wanted readings. When one
// cord would have to push, it is left slack and the other one brings the bow: the twist is out of
// reach. A device of one pull (strap, caul, posts in line) brings the bow and leaves the twist as
// it comes. A neck that ran past the reading while the line was soft is left there (PullProblem::
// ran_on). `u` is the first guess and becomes the displacement found. Throws StepFailed, with what
// it came to, when the bow itself is out of reach.
PullResult pull_to(PullProblem &problem, double bow, double twist, std::vector<double> &u);

// Adds to a unit's take-ups what makes its readings follow its own change of bow and twist; where
// one pull is at work, of the bow alone.
void pull_unit(PullProblem &problem, const PullResult &result, Unit &unit);
} // namespace overbend::solver
