// SPDX-License-Identifier: GPL-3.0-or-later
// Where a film spends its time.
#include "viz/drawing/film_times.h"

#include <gtest/gtest.h>

#include <algorithm>

using namespace overbend;

namespace
{
long frames_from(const std::vector<viz::FilmFrame> &frames, std::size_t step)
{
  return std::count_if(frames.begin(), frames.end(),
                       [&](const viz::FilmFrame &f) { return f.step == step && f.share > 0; });
}
} // namespace

// A step in which much happens is shown long, one in which nothing does is passed over, however
// long it lasted.
TEST(FilmTimes, FollowWhatHappens)
{
  const auto frames = viz::film_frames({1.0, 0.01, 0.5}, {0});
  EXPECT_NEAR(double(frames_from(frames, 0)), 20, 1);
  EXPECT_LE(frames_from(frames, 1), 1);
  EXPECT_NEAR(double(frames_from(frames, 2)), 10, 1);
}

TEST(FilmTimes, GoOnWithoutAStepBackAndEndAtTheEnd)
{
  const auto frames = viz::film_frames({0.3, 0.01, 0.02, 0.7, 0.01}, {0, 2, 4});
  for (std::size_t n = 1; n < frames.size(); ++n)
    EXPECT_GE(double(frames[n].step) + frames[n].share,
              double(frames[n - 1].step) + frames[n - 1].share);
  EXPECT_EQ(frames.back().step, 5u);
  EXPECT_EQ(frames.back().share, 0);
  for (const viz::FilmFrame &f : frames) {
    EXPECT_GE(f.share, 0);
    EXPECT_LT(f.share, 1);
  }
}

TEST(FilmTimes, StandStillWhereAPhaseBegins)
{
  const auto frames = viz::film_frames({0.5, 0.5}, {1});
  EXPECT_GE(std::count_if(frames.begin(), frames.end(),
                          [](const viz::FilmFrame &f) { return f.step == 1 && f.share == 0; }),
            viz::frames_per_second / 3);
}
