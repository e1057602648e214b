// SPDX-License-Identifier: GPL-3.0-or-later
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "materials/strings.h"
#include "solver/bench/device.h"
#include "solver/bench/device_words.h"
#include "solver/bench/pull_limits.h"
#include "solver/history/take_up_change.h"
#include "solver/words/pull_names.h"
#include "tests/both_units.h"

#include <cmath>

// Where the pulls of a case act, what each may be, and what they are called.
namespace overbend::tests
{
namespace
{
using cases::Device;
using solver::PullBound;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

cases::Case case_of(const std::string &preset, const std::string &bench = "",
                    const std::string &more = "")
{
  return cases::parse_case("preset = \"" + preset + "\"\n[found]\nbow = \"1 mm\"\n" + more +
                               "[bench]\n" + bench,
                           "test.toml");
}

cases::Case turned_over(const std::string &preset, const std::string &bench)
{
  cases::Case c = case_of(preset, bench);
  c.bench.turned_over = true;
  return c;
}

const materials::Tables &tables()
{
  return materials::tables();
}

// Mersenne, by hand: mass (2 L f)^2.
double tension(double mass, double scale, double frequency)
{
  return mass * std::pow(2 * scale * frequency, 2);
}
} // namespace

// A cord over the edge pulls at the headstock's edge, half of 75 mm off the centre line; one from a
// roller at the roller; face down at the post.
TEST(DevicePlaces, CordsPullWhereTheyLeaveTheHeadstock)
{
  const auto solid = solver::device_pulls(case_of("steel-string acoustic"), tables());
  const double tilt = std::cos(14 * std::acos(-1.) / 180);
  ASSERT_EQ(solid.size(), 2u);
  EXPECT_NEAR(solid[0].x(), -79e-3 * tilt, 1e-9);
  EXPECT_NEAR(solid[0].y(), -37.5e-3, 1e-9);
  EXPECT_NEAR(solid[1].y(), 37.5e-3, 1e-9);
  EXPECT_NEAR(solver::device_pulls(case_of("classical"), tables())[1].y(), 30e-3, 1e-9);
  const auto down = solver::device_pulls(turned_over("steel-string acoustic", ""), tables());
  EXPECT_NEAR(down[0].y(), -32.5e-3, 1e-9);
}

TEST(DevicePlaces, SeveralPostsASideShareOnePullAtTheirMiddle)
{
  const cases::Case c = case_of("classical", "posts = \"bass 1, bass 3, treble 2\"\n");
  const auto pulls = solver::device_pulls(c, tables());
  const double tilt = std::cos(15 * std::acos(-1.) / 180);
  EXPECT_EQ(pulls[0].cords, 2u);
  EXPECT_NEAR(pulls[0].x(), -tilt * 80e-3, 1e-9);
  EXPECT_NEAR(pulls[0].stiffness, 2 * c.bench.cord_stiffness, 1e-6);
  EXPECT_EQ(pulls[1].cords, 1u);
  EXPECT_THAT(solver::pull_names(c), ElementsAre("bass cords", "treble cord"));
}

// All posts stand on the bass side: one pull, at that edge, and no twist to be set.
TEST(DevicePlaces, PostsInLineAreOnePullOnOneSide)
{
  const cases::Case c = case_of("electric", "device = \"posts\"\n");
  const auto pulls = solver::device_pulls(c, tables());
  ASSERT_EQ(pulls.size(), 1u);
  EXPECT_NEAR(pulls[0].y(), -37.5e-3, 1e-9);
  EXPECT_NEAR(pulls[0].x(), -85e-3, 1e-9); // the third of six from 35 to 160 mm
  EXPECT_FALSE(solver::sets_twist(c));
  EXPECT_THAT(solver::pull_names(c), ElementsAre("cord"));
  const std::string words = solver::device_in_words(c, tables());
  EXPECT_THAT(words, HasSubstr("Cords on one side, from bass post 3"));
  EXPECT_THAT(words, HasSubstr("the twist comes as it comes"));
  EXPECT_THAT(words, Not(HasSubstr("a side")));
}

TEST(DeviceNames, AreThoseOfTheDeviceAndTellWhetherTwistIsSet)
{
  const auto names = [](const char *device) {
    return solver::pull_names(case_of("electric", std::string("device = \"") + device + "\"\n"));
  };
  EXPECT_THAT(names("strap"), ElementsAre("strap"));
  EXPECT_THAT(names("headstock bar"), ElementsAre("bass end of the bar", "treble end of the bar"));
  EXPECT_THAT(names("strap and bar"), ElementsAre("strap", "bar"));
  EXPECT_THAT(solver::pull_names(case_of("classical")), ElementsAre("bass cord", "treble cord"));
  cases::Case c = case_of("electric");
  c.bench.device = Device::caul;
  EXPECT_THAT(solver::pull_names(c), ElementsAre("caul"));
  EXPECT_FALSE(solver::sets_twist(c));
  EXPECT_TRUE(solver::sets_twist(case_of("electric")));
}

TEST(DeviceWords, HaveBothUnitsAndDoNotSpeakOfAnotherDevice)
{
  for (const char *preset : {"electric", "classical"})
    for (const Device device :
         {Device::posts, Device::strap, Device::headstock_bar, Device::strap_and_bar, Device::caul})
      for (const bool over : {false, true}) {
        cases::Case c = case_of(preset);
        c.bench.device = device;
        c.bench.turned_over = over;
        const std::string words = solver::device_in_words(c, tables());
        EXPECT_THAT(bare_numbers(words), IsEmpty()) << words;
        EXPECT_EQ(words.find("face down") != std::string::npos, over) << words;
        EXPECT_EQ(words.find("Strap") != std::string::npos,
                  device == Device::strap || device == Device::strap_and_bar)
            << words;
      }
}

// 148.7 and 115.0 N of a medium acoustic set on the second posts, every day.
TEST(PullLimits, ATunerBearsAHalfMoreThanItsStringPulls)
{
  const cases::Case c =
      case_of("steel-string acoustic", "", "[strings]\nset = \"acoustic medium 13-56\"\n");
  const auto limits = solver::pull_limits(c, tables());
  const double a = tension(7.3866e-3, 0.645, 110), b = tension(1.1338e-3, 0.645, 246.942);
  EXPECT_NEAR(limits[0].refuse, 1.5 * a, 0.01);
  EXPECT_NEAR(limits[0].caution, 1.2 * a, 0.01);
  EXPECT_NEAR(limits[1].refuse, 1.5 * b, 0.01);
  EXPECT_EQ(limits[0].bound, PullBound::post);
}

// 65 N of a light electric set on a post: a worm gear still bears 150 N sideways.
TEST(PullLimits, AWormGearIsNeverRefusedBelowItsFloorAndARollerHasNone)
{
  const cases::Case e = case_of("electric", "device = \"posts\"\n");
  EXPECT_NEAR(solver::pull_limits(e, tables())[0].refuse, 150, 1e-9);
  EXPECT_NEAR(solver::pull_limits(e, tables())[0].caution, 120, 1e-9);
  const cases::Case c = case_of("classical");
  const double a = tension(3.4902e-3, 0.65, 110);
  EXPECT_NEAR(solver::pull_limits(c, tables())[0].refuse, 1.5 * a, 0.01);
  EXPECT_LT(solver::pull_limits(c, tables())[0].refuse, 150);
}

// 198 N of a bass set on its second post, every day: 297 N may be asked of it.
TEST(PullLimits, ABassTunerBearsWhatItsSetAsksOfItEveryDay)
{
  const cases::Case c = case_of("long-scale bass", "device = \"posts\"\nposts = \"bass 2\"\n");
  const double a = tension(2.1921e-2, 0.864, 55);
  EXPECT_NEAR(a, 198, 0.5);
  EXPECT_NEAR(solver::pull_limits(c, tables())[0].refuse, 1.5 * a, 0.01);
  EXPECT_EQ(solver::pull_limits(c, tables())[0].bound, PullBound::post);
}

TEST(PullLimits, AlongThePostItIsTheTablesLimitAndSharedByPosts)
{
  const auto down = solver::pull_limits(turned_over("steel-string acoustic", ""), tables());
  EXPECT_NEAR(down[0].refuse, 150, 1e-9);
  const auto two = solver::pull_limits(
      turned_over("steel-string acoustic", "posts = \"bass 1, bass 2, treble 2\"\n"), tables());
  EXPECT_NEAR(two[0].refuse, 300, 1e-9);
  EXPECT_NEAR(two[1].refuse, 150, 1e-9);
  const auto roller =
      solver::pulled_posts(turned_over("classical", ""), tables(), cases::Side::bass);
  EXPECT_EQ(roller[0].load, materials::PostLoad::sideways);
}

TEST(PullLimits, CordStrapAndBarHaveTheirOwn)
{
  const auto limits = [](const std::string &bench) {
    return solver::pull_limits(case_of("electric", bench), tables());
  };
  EXPECT_EQ(limits("")[0].bound, PullBound::cord);
  EXPECT_NEAR(limits("")[1].refuse, 300, 1e-9);
  // 80 N m at 400 mm.
  EXPECT_EQ(limits("bar_arm = \"400 mm\"\n")[0].bound, PullBound::bar);
  EXPECT_NEAR(limits("bar_arm = \"400 mm\"\n")[0].refuse, 200, 1e-9);
  const auto both = limits("device = \"strap and bar\"\nstrap_limit = \"450 N\"\n");
  EXPECT_EQ(both[0].bound, PullBound::strap);
  EXPECT_NEAR(both[0].refuse, 450, 1e-9);
  EXPECT_EQ(both[1].bound, PullBound::cord);
}

// A small tuner has no floor, sideways or along.
TEST(PullLimits, ASmallTunerBearsItsShareOnly)
{
  const auto &small = tables().tuner("mandolin");
  EXPECT_NEAR(materials::post_limit(small, 60, materials::PostLoad::sideways).refuse, 90, 1e-9);
  EXPECT_NEAR(materials::post_limit(small, 60, materials::PostLoad::along).refuse, 90, 1e-9);
  EXPECT_NEAR(materials::post_limit(small, 120, materials::PostLoad::along).refuse, 150, 1e-9);
  const auto &worm = tables().tuner("guitar");
  EXPECT_NEAR(materials::post_limit(worm, 60, materials::PostLoad::along).refuse, 150, 1e-9);
  EXPECT_NEAR(materials::post_limit(worm, 60, materials::PostLoad::along).caution, 120, 1e-9);
}

// 16 mm of cord that hangs is nothing to take up: the other side drew the headstock down by that.
TEST(TakeUpChange, IsNothingForAPullThatHangsSlack)
{
  const cases::Case c = case_of("classical");
  solver::History history;
  for (unsigned phase = 0; phase < 2; ++phase) {
    solver::StepRecord step;
    step.phase = phase;
    step.take_up = {12e-3 + 1e-3 * phase, 16e-3};
    step.slack = {false, phase == 0};
    history.steps.push_back(step);
    solver::PhaseEnd end;
    end.phase = phase;
    end.take_up = step.take_up;
    history.phases.push_back(end);
  }
  ASSERT_TRUE(c.phases[0].cords && c.phases[1].cords);
  const auto cold = solver::take_up_change(c, history, history.phases[0]);
  EXPECT_NEAR(cold[0].value(), 12e-3, 1e-12);
  EXPECT_FALSE(cold[1].has_value());
  const auto hot = solver::take_up_change(c, history, history.phases[1]);
  EXPECT_NEAR(hot[0].value(), 1e-3, 1e-12);
  EXPECT_NEAR(hot[1].value(), 0, 1e-12);
  cases::Case strap = c;
  strap.bench.device = Device::strap;
  EXPECT_FALSE(solver::take_up_change(strap, history, history.phases[1])[1].has_value());
}
} // namespace overbend::tests
