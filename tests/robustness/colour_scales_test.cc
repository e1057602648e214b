// SPDX-License-Identifier: GPL-3.0-or-later
// Colour maps and the scales of the pictures.
#include "materials/tables.h"
#include "viz/drawing/colour_scale.h"

#include <gmock/gmock.h>

#include <cmath>

using namespace overbend;
using ::testing::ElementsAre;

TEST(ColourMap, GrowsEvenlyLighterSoThatItReadsInGrey)
{
  double before = -1;
  for (int k = 0; k <= 90; ++k) {
    const double now = viz::luminance(viz::cividis(k / 90.));
    EXPECT_GT(now, before) << k;
    before = now;
  }
  EXPECT_LT(viz::luminance(viz::cividis(0)), 0.05);
  EXPECT_GT(viz::luminance(viz::cividis(1)), 0.7);
}

// Zero is the lightest; an amount is as light above zero as below, and darker the larger it is.
TEST(ColourMap, OfSignedAmountsIsEvenAboutZero)
{
  double before = viz::luminance(viz::blue_to_brown(0));
  EXPECT_GT(before, 0.75);
  for (int k = 1; k <= 30; ++k) {
    const double up = viz::luminance(viz::blue_to_brown(k / 30.)),
                 down = viz::luminance(viz::blue_to_brown(-k / 30.));
    EXPECT_LT(up, before) << k;
    EXPECT_NEAR(up, down, 0.06) << k;
    before = up;
  }
  // Blue against brown: told apart by eyes that do not tell red from green.
  EXPECT_GT(viz::blue_to_brown(-1)[2], viz::blue_to_brown(-1)[0] + 0.3);
  EXPECT_GT(viz::blue_to_brown(1)[0], viz::blue_to_brown(1)[2] + 0.3);
}

TEST(ColourScale, OfSignedAmountsHasZeroInTheMiddleAndLeavesOutItsPeaks)
{
  std::vector<double> stress(1000, -7);
  stress[3] = 400; // a corner
  const viz::ColourScale scale = viz::around_zero(stress, "stress", "MPa");
  EXPECT_EQ(scale.from, -scale.to);
  EXPECT_EQ(scale.to, 8);
  EXPECT_EQ(scale.colour(0.5), viz::blue_to_brown(0));
}

// A neck that breaks may not look calmer than one that does not.
TEST(ColourScale, OfUseIsFixedAndHasAColourOverItsEnd)
{
  const viz::ColourScale scale = viz::scale_of_use();
  EXPECT_EQ(scale.from, 0);
  EXPECT_EQ(scale.to, 100);
  const materials::WorkLimits &limits = materials::tables().limits;
  EXPECT_THAT(scale.marks,
              ElementsAre(100 * limits.wood_use_caution, 100 * limits.wood_use_refuse));
  double over[3], most[3];
  scale.table()->GetColor(103, over);
  scale.table()->GetColor(100, most);
  EXPECT_GT(std::abs(over[2] - most[2]) + std::abs(over[1] - most[1]), 0.5);
}

TEST(ColourScale, TicksAreRoundAndHoldBothEnds)
{
  EXPECT_THAT(viz::round_ticks(20, 60, 6), ElementsAre(20, 30, 40, 50, 60));
  EXPECT_THAT(viz::round_ticks(68, 140, 6), ElementsAre(80, 100, 120, 140));
  EXPECT_THAT(viz::round_ticks(-25, 25, 6), ElementsAre(-20, -10, 0, 10, 20));
}
