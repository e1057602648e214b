// SPDX-License-Identifier: GPL-3.0-or-later
// Which line reads what was read after a first pass.
#include "solver/job/line_fit.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace overbend;
using solver::fit_line;
using solver::LineFit;

namespace
{
// Curved as a neck is: little at the slow end, more and more towards the fast one.
double reads(double place)
{
  return 1e-3 - 0.4e-3 * (std::exp(place) - std::exp(-1.));
}

constexpr double open = 0.1e-3;
} // namespace

TEST(LineFit, FindsTheLineThatReadsSo)
{
  for (const double place : {-0.8, -0.3, 0., 0.25, 0.6, 0.95}) {
    const LineFit fit = fit_line(reads(place), open, reads);
    EXPECT_NEAR(reads(fit.place), reads(place), 0.3 * open) << place;
    EXPECT_FALSE(fit.slower_than_any || fit.faster_than_any);
    EXPECT_LE(fit.slow, fit.place);
    EXPECT_GE(fit.fast, fit.place);
    EXPECT_LE(std::abs(fit.slow), 1);
    EXPECT_LE(std::abs(fit.fast), 1);
  }
}

// What a reading may be off leaves a range of lines, and those read that much more or less, as far
// as straight lines between the ones that were run tell.
TEST(LineFit, TheReadingLeavesLinesOpenOnBothSides)
{
  const LineFit fit = fit_line(reads(0.3), open, reads);
  EXPECT_NEAR(reads(fit.slow) - reads(0.3), open, 0.35 * open);
  EXPECT_NEAR(reads(0.3) - reads(fit.fast), open, 0.35 * open);
}

TEST(LineFit, RunsAtMostFiveHistories)
{
  unsigned runs = 0;
  fit_line(reads(0.5), open, [&](double place) {
    ++runs;
    return reads(place);
  });
  EXPECT_LE(runs, 5u);
  EXPECT_GE(runs, 4u);
}

TEST(LineFit, BeyondBothEndsItIsTheEndAndSaysSo)
{
  const LineFit slow = fit_line(reads(-1) + 2 * open, open, reads);
  EXPECT_TRUE(slow.slower_than_any);
  EXPECT_FALSE(slow.faster_than_any);
  EXPECT_EQ(slow.place, -1);
  const LineFit fast = fit_line(reads(1) - 2 * open, open, reads);
  EXPECT_TRUE(fast.faster_than_any);
  EXPECT_EQ(fast.place, 1);
  EXPECT_NEAR(fast.fastest, reads(1), 1e-12);
  EXPECT_NEAR(fast.slowest, reads(-1), 1e-12);
}

// A neck that every line leaves alike tells nothing of its line.
TEST(LineFit, LinesThatReadAlikeLeaveAllOpen)
{
  const LineFit fit = fit_line(0.5e-3, open, [](double) { return 0.5e-3; });
  EXPECT_EQ(fit.slow, fit.place);
  EXPECT_FALSE(fit.slower_than_any || fit.faster_than_any);
}
