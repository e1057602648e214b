// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/generating_histories.h"
#include "solver/history/start.h"

#include <vector>

// The pure kinds of warp that a neck as found is put together from (start.h).
namespace overbend::solver
{
constexpr double no_limit = 1e9;
// Two published sets of creep along the grain differ by this factor [C]: so much more than computed
// may told years of pull have done, not more.
constexpr double creep_spread = 1.5;

// The histories that are scaled to the readings, each rested, with what it reads.
struct Scaled
{
  MechanicsState state;
  Reading reads;
};

struct Histories
{
  MechanicsState swollen;
  Scaled slip_bow, wood_bow, slip_twist, wood_twist;
  Cause pull; // strings, and a seized rod with them
  double slip_share = 0;
  double wood_limit = no_limit; // of the scale on wood_bow
};

// Makes the histories and writes down what they tell of the neck itself.
Histories make_histories(const NeckOnBench &neck, const StringPull &found_strings,
                         const std::vector<double> &moisture, Generator &generator, Diagnosis &d);
} // namespace overbend::solver
