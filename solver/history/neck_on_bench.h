// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/bench/bench.h"
#include "solver/bench/board_lines.h"
#include "solver/mechanics/mechanics.h"

namespace overbend::solver
{
// A neck on its bench, ready for histories: what they all share. None of them changes any of it;
// the mechanics keep a factor from one to the next, which saves time and nothing else.
struct NeckOnBench
{
  const cases::Case &the_case;
  const Model &model;
  const Bench &bench;
  const BoardLines &lines;
  Mechanics &mechanics;
};
} // namespace overbend::solver
