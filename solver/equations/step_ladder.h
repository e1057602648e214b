// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace overbend::solver
{
// How many doublings (negative: halvings) of a step bring its error and its bulge (the distance
// inside it from a straight line) to the limit. The error grows with the third power of the step,
// the bulge with the second.
int doublings(double error, double bulge, double limit);

// Steps that are a duration over powers of two, so that they land on its end and factors are used
// again. The duration is divided into 2^finest ticks, a step is 2^(finest - level) of them.
class StepLadder
{
public:
  StepLadder(double duration, double first_step, double longest_step);

  double dt() const;
  double reached() const; // time gone by
  bool done() const;
  bool above_first() const { return level < first; } // steps are longer than the first

  // A step was taken; `room`: doublings by which the next one may be longer.
  void advance(int room);
  // Where nothing much happens: looks for a longer first step before taking one; true if found.
  bool lengthened_first(int room);
  // Shortens the step by `room` (negative); false if there are no shorter ones.
  bool cut(int room);

private:
  std::uint64_t ticks() const { return std::uint64_t(1) << (finest - level); }
  bool may_lengthen() const { return level > 0 && 2 * dt() <= longest; }

  double duration, longest;
  unsigned first = 0, finest = 0, level = 0;
  std::uint64_t position = 0;
  bool untried = true;
};
} // namespace overbend::solver
