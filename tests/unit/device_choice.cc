// SPDX-License-Identifier: GPL-3.0-or-later
// The benches that a plan tries, by statics and the limits of what pulls, before anything runs.
#include "solver/job/device_choice.h"

#include "cases/case/posts.h"
#include "cases/read/read_case.h"
#include "solver/bench/pull_limits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

using namespace overbend;
using cases::Device;
using cases::Side;
using solver::NeckNeeds;

namespace
{
cases::Case case_of(const std::string &preset, const std::string &bench = "")
{
  return cases::parse_case("preset = \"" + preset + "\"\n[found]\nbow = \"1 mm\"\n" + bench,
                           "test.toml");
}

std::vector<cases::Bench> choices(const cases::Case &c, const NeckNeeds &needs)
{
  return solver::device_choices(c, materials::tables(), needs);
}

std::vector<Device> devices(const cases::Case &c, const NeckNeeds &needs)
{
  std::vector<Device> all;
  for (const cases::Bench &bench : choices(c, needs))
    all.push_back(bench.device);
  return all;
}

unsigned posts_a_side(const cases::Bench &bench)
{
  const auto bass = cases::posts_named(bench.posts, Side::bass).size();
  EXPECT_EQ(bass, cases::posts_named(bench.posts, Side::treble).size());
  return bench.posts.empty() ? 1 : unsigned(bass);
}

// Most that both sides pull together within their limits, without a torque.
double most_pull(const cases::Bench &bench, cases::Case c)
{
  c.bench = bench;
  const auto limits = solver::pull_limits(c, materials::tables());
  return 2 * std::min(limits.at(0).refuse, limits.at(1).refuse);
}
} // namespace

TEST(DeviceChoices, PostsOnBothSidesAreOneASideAndThenMore)
{
  const cases::Case c = case_of("steel-string acoustic");
  ASSERT_TRUE(c.left_open.device);
  const auto all = choices(c, {100, 0});
  ASSERT_GE(all.size(), 3u);
  for (unsigned n = 1; n <= 3; ++n) {
    EXPECT_EQ(all[n - 1].device, Device::posts);
    EXPECT_EQ(posts_a_side(all[n - 1]), n);
  }
  EXPECT_EQ(cases::posts_named(all[1].posts, Side::bass), (std::vector<int>{1, 2}));
  EXPECT_EQ(cases::posts_named(all[2].posts, Side::bass), (std::vector<int>{1, 2, 3}));
}

// What one post a side does not bear, two or three do: the simplest that reaches comes first.
TEST(DeviceChoices, TheSimplestThatReachesComesFirst)
{
  const cases::Case c = case_of("classical");
  const auto easy = choices(c, {50, 0});
  ASSERT_EQ(posts_a_side(easy[0]), 1u);
  const double one = most_pull(easy[0], c), two = most_pull(easy[1], c);
  ASSERT_GT(two, 1.2 * one);
  EXPECT_EQ(posts_a_side(choices(c, {0.99 * one, 0})[0]), 1u);
  const auto harder = choices(c, {1.01 * one, 0});
  EXPECT_EQ(harder[0].device, Device::posts);
  EXPECT_EQ(posts_a_side(harder[0]), 2u);
}

TEST(DeviceChoices, PostsInLineGiveAStrapWithoutTwistAndABarWithIt)
{
  for (const char *preset : {"electric", "long-scale bass"}) {
    const cases::Case c = case_of(preset);
    EXPECT_EQ(devices(c, {120, 0}),
              (std::vector<Device>{Device::strap, Device::headstock_bar, Device::strap_and_bar}))
        << preset;
    EXPECT_EQ(devices(c, {120, 3}),
              (std::vector<Device>{Device::headstock_bar, Device::strap_and_bar}))
        << preset;
  }
}

// 20 N m at 150 mm need 133 N of difference; two cords of a pull of 60 N have not got it.
TEST(DeviceChoices, ATorqueBeyondTheBarAloneNeedsStrapAndBar)
{
  EXPECT_EQ(devices(case_of("electric"), {60, 20}).front(), Device::strap_and_bar);
}

// Cords of posts 60 mm apart would have to push for 10 N m at 100 N.
TEST(DeviceChoices, PostsThatWouldHaveToPushAreLeftOut)
{
  const auto all = devices(case_of("steel-string acoustic"), {100, 10});
  ASSERT_FALSE(all.empty());
  EXPECT_EQ(std::count(all.begin(), all.end(), Device::posts), 0);
  EXPECT_EQ(all.front(), Device::headstock_bar);
}

// What a device bears less of than is asked comes after those that bear it, nearest first.
TEST(DeviceChoices, WhatIsStrainedFurtherComesAfterThoseThatReach)
{
  const cases::Case c = case_of("classical");
  const auto easy = choices(c, {50, 0});
  const double one = most_pull(easy[0], c), two = most_pull(easy[1], c);
  ASSERT_GT(two, 1.2 * one);
  const auto harder = choices(c, {1.01 * one, 0});
  ASSERT_EQ(harder.size(), easy.size());
  EXPECT_EQ(posts_a_side(harder.back()), 1u);
  EXPECT_EQ(harder.back().device, Device::posts);
}

TEST(DeviceChoices, ADeviceThatTheCaseFixesIsTheOnlyOne)
{
  for (const char *fixed :
       {"device = \"posts\"\n", "posts = \"bass 3\"\n", "stop_block = true\n"}) {
    const cases::Case c = case_of("electric", std::string("[bench]\n") + fixed);
    const auto all = choices(c, {1e4, 5});
    ASSERT_EQ(all.size(), 1u) << fixed;
    EXPECT_EQ(all[0].device, c.bench.device) << fixed;
    EXPECT_EQ(cases::posts_text(all[0].posts), cases::posts_text(c.bench.posts)) << fixed;
    EXPECT_EQ(all[0].stop_block, c.bench.stop_block) << fixed;
  }
}

TEST(DeviceChoices, OnlyStrapAndCaulSpareTheHeadstock)
{
  EXPECT_TRUE(solver::spares_headstock(Device::strap));
  EXPECT_TRUE(solver::spares_headstock(Device::strap_and_bar));
  EXPECT_TRUE(solver::spares_headstock(Device::caul));
  EXPECT_FALSE(solver::spares_headstock(Device::posts));
  EXPECT_FALSE(solver::spares_headstock(Device::headstock_bar));
}

// By hand: a degree of twist, of which half stays, is two degrees; hot four fifths of 3.6 N m each.
TEST(NeckNeeds, TorqueIsThatOfTheTwistToBeTakenOut)
{
  cases::Case c = case_of("electric");
  const double degree = std::acos(-1.) / 180;
  c.found.twist = 1.2 * degree;
  c.target.twist = 0.2 * degree;
  const NeckNeeds needs = solver::needs_of(c, materials::tables(), 0.3e-3, 460, 0.4);
  EXPECT_NEAR(needs.torque, 0.8 * 3.6 * 2, 1e-9);
  c.found.twist.reset();
  c.target.twist = 0;
  EXPECT_EQ(solver::needs_of(c, materials::tables(), 0.3e-3, 460, 0.4).torque, 0);
}

// The pull grows with the way: found to released over the share that stays, up to the most
// overbend. EI by the lift: a neck that the strings lift half as far is twice as stiff.
TEST(NeckNeeds, PullIsThatOfTheWayAndOfTheStiffness)
{
  cases::Case c = case_of("electric");
  c.target.relief = 0.2e-3;
  const auto pull = [&](double bow, double lift, double kept) {
    c.found.bow_centre = bow;
    return solver::needs_of(c, materials::tables(), lift, 460, kept).pull;
  };
  // Released at -0.1 mm: ways 0.6/0.5 and 0.9/0.5 mm.
  const double one = pull(0.5e-3, 0.3e-3, 0.5);
  EXPECT_GT(one, 0);
  EXPECT_NEAR(pull(0.8e-3, 0.3e-3, 0.5) / one, 1.5, 1e-9);
  EXPECT_NEAR(pull(0.5e-3, 0.3e-3, 0.25) / one, 2, 1e-9);
  EXPECT_NEAR(pull(0.35e-3, 0.15e-3, 0.5) / one, 2 * 0.3 / 0.6, 1e-9);
  // 3 mm past straight is the most (limits.toml): 3.5 mm of way, whatever the share.
  EXPECT_NEAR(pull(0.5e-3, 0.3e-3, 0.1) / one, 3.5 / 1.2, 1e-9);
}
