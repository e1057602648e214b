// SPDX-License-Identifier: GPL-3.0-or-later
// Readings of a history between its steps.
#include "solver/history/reading_at.h"

#include <gtest/gtest.h>

#include <stdexcept>

using namespace overbend;

TEST(ReadingAt, IsLinearBetweenTheStepsAndNothingBeyondThem)
{
  solver::History history;
  for (const double time : {0., 10., 30.}) {
    history.steps.emplace_back();
    history.steps.back().time = time;
    history.steps.back().reading = {time * time, 2 * time, 3, -time};
  }
  const solver::Reading between = solver::reading_at(history, 25);
  EXPECT_NEAR(between.bow_bass, 100 + 0.75 * 800, 1e-12);
  EXPECT_NEAR(between.bow, 50, 1e-12);
  EXPECT_NEAR(between.bow_treble, 3, 1e-12);
  EXPECT_NEAR(between.twist, -25, 1e-12);
  EXPECT_NEAR(solver::reading_at(history, 10).bow, 20, 1e-12);
  for (const double outside : {-1., 31.})
    EXPECT_THROW(solver::reading_at(history, outside), std::logic_error) << outside;
}
