// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "solver/bench/device.h"
#include "solver/bench/device_reach.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>

// Statics of what pulls the neck, against sums done by hand.
namespace overbend::tests
{
namespace
{
using solver::DevicePull;
using solver::NeckLoad;

const char *const statics = "statics of rigid bodies";

DevicePull at(double x, double y)
{
  return {{{x, y, 0}}, 0, 1, 3e4};
}

// Cords 100 mm behind the nut, 30 mm off the centre line; ends of a bar 150 mm off it.
const std::vector<DevicePull> posts{at(-0.1, -0.03), at(-0.1, 0.03)},
    bar{at(-0.06, -0.15), at(-0.06, 0.15)}, line{at(-0.1, -0.0375)},
    strap_and_bar{at(-0.02, 0), {{{-0.06, 0, 0}}, 0.15, 2, 3e4}};

void expect_near(const std::string &what, const std::string &quantity, double expected, double got)
{
  const double tolerance = 1e-12 * std::max(1., std::abs(expected));
  report(what, quantity, statics, expected, got, tolerance);
  EXPECT_NEAR(got, expected, tolerance) << what << ", " << quantity;
}
} // namespace

// 100 N and 1 N m by two cords 60 mm apart: their difference is 1/0.03 N.
TEST(DeviceStatics, TwoCordsShareForceAndTorque)
{
  const auto got = solver::pulls_for(posts, {100, 1});
  expect_near("Posts on both sides, 100 N and 1 N m", "bass cord, N", 50 + 0.5 / 0.03, got.pull[0]);
  expect_near("Posts on both sides, 100 N and 1 N m", "treble cord, N", 50 - 0.5 / 0.03,
              got.pull[1]);
  EXPECT_FALSE(got.pushes);
  const NeckLoad back = solver::load_of(posts, got.pull);
  EXPECT_NEAR(back.pull, 100, 1e-12);
  EXPECT_NEAR(back.torque, 1, 1e-12);
  // Drawing the bass side down raises the treble corner: positive.
  EXPECT_GT(solver::load_of(posts, {100, 0}).torque, 0);
  EXPECT_TRUE(solver::pulls_for(posts, {100, 3.1}).pushes);
  EXPECT_FALSE(solver::pulls_for(bar, {100, 3.1}).pushes);
}

TEST(DeviceStatics, ReachOfTheTorqueIsPullTimesArmWithinTheLimits)
{
  const auto reach = [](const std::vector<DevicePull> &pulls, double pull,
                        const std::vector<double> &limits) {
    return solver::torque_range(pulls, pull, limits).value();
  };
  expect_near("Posts on both sides, 100 N", "most torque, N m", 3,
              reach(posts, 100, {150, 150}).most);
  expect_near("Posts on both sides, 100 N", "least torque, N m", -3,
              reach(posts, 100, {150, 150}).least);
  // At most 60 N a cord: 60 and 40 N, 20 N at 30 mm.
  expect_near("The same, 60 N a cord", "most torque, N m", 0.6, reach(posts, 100, {60, 60}).most);
  expect_near("Bar across the headstock, 100 N", "most torque, N m", 15,
              reach(bar, 100, {300, 300}).most);
  expect_near("Strap and bar, 100 N and 40 N at each end", "most torque, N m", 12,
              reach(strap_and_bar, 100, {600, 40}).most);
  const auto one_side = reach(line, 100, {150});
  expect_near("Posts in line, 100 N at 37.5 mm", "torque, N m", 3.75, one_side.most);
  EXPECT_EQ(one_side.most, one_side.least);
  EXPECT_FALSE(solver::torque_range(posts, 130, {60, 60}).has_value());
  EXPECT_FALSE(solver::torque_range(line, 160, {150}).has_value());
}

TEST(DeviceStatics, ACoupleTurnsWithoutPullingAndOnePullLeavesTheTorque)
{
  const auto got = solver::pulls_for(strap_and_bar, {200, 3});
  expect_near("Strap and bar, 200 N and 3 N m", "strap, N", 200, got.pull[0]);
  // Raising the treble corner draws the treble end up: negative.
  expect_near("Strap and bar, 200 N and 3 N m", "each end of the bar, N", -10, got.pull[1]);
  EXPECT_FALSE(got.pushes);
  const auto one = solver::pulls_for(line, {100, 1});
  expect_near("Posts in line, 100 N, 1 N m wanted", "torque missing, N m", 1 - 3.75,
              one.torque_missing);
}

TEST(DeviceStatics, HeadstockRootAndScarfCarryPullTimesLever)
{
  const auto root = solver::load_at(posts, {60, 40}, 0),
             scarf = solver::load_at(posts, {60, 40}, 0.05);
  expect_near("Headstock root, 100 N at 100 mm", "bending, N m", 10, root.bending);
  expect_near("Headstock root, 100 N at 100 mm", "torque, N m", 0.6, root.torque);
  expect_near("Scarf 50 mm past the nut", "bending, N m", 15, scarf.bending);
  expect_near("Scarf 50 mm past the nut", "shear, N", 100, scarf.shear);
  // A strap 20 mm behind the nut spares the root.
  const auto strapped = solver::load_at(strap_and_bar, {100, 10}, 0);
  expect_near("Headstock root, strap 20 mm behind the nut", "bending, N m", 2, strapped.bending);
  expect_near("Headstock root, bar with 10 N at 150 mm", "torque, N m", -3, strapped.torque);
  EXPECT_EQ(solver::load_at(posts, {60, 40}, -0.15).bending, 0);
}

TEST(DeviceStatics, BodyAndCradleBalanceThePull)
{
  const solver::Hold tips{0.2, 0.4, 0.55, cases::BodyHold::pads};
  const auto lever = solver::hold_load(posts, {60, 40}, tips);
  expect_near("Body on pads, 100 N, levers 300 and 350 mm", "hold, N", 100 * 0.3 / 0.35,
              lever.body_force);
  expect_near("Body on pads, 100 N, levers 300 and 350 mm", "cradle, N", 100 * 0.65 / 0.35,
              lever.cradle);
  expect_near("Body on pads, cords 60 and 40 N at 30 mm", "torque of the hold, N m", 0.6,
              lever.torque);
  solver::Hold rigid = tips;
  rigid.body = cases::BodyHold::rigid;
  const auto held = solver::hold_load(posts, {50, 50}, rigid);
  expect_near("Body held rigidly, propped cantilever", "cradle, N", 100 + 1.5 * 30 / 0.2,
              held.cradle);
  expect_near("Body held rigidly, propped cantilever", "moment in the joint, N m", 15,
              held.body_moment);
  EXPECT_THROW(solver::hold_load({at(0.3, 0)}, {10}, tips), std::invalid_argument);
}

// Trade reference 3.5, electric held rigidly: 123 N of both cords put 340 N on the cradle, at 55 %
// of the free shaft from the body, posts in the middle of the headstock [E]. The neck there is not
// of one section, and the number is rounded: 8 %.
TEST(DeviceStatics, RigidHoldAgreesWithTheTradesBeamSums)
{
  const cases::Case c = cases::preset_case("electric");
  const double join = cases::fret_position(c.neck.scale_length, c.neck.join_fret);
  const double x = -(c.tuners.first_post + c.tuners.last_post) / 2;
  const auto got = solver::hold_load({at(x, 0)}, {123},
                                     {0.45 * join, join, join + 0.15, cases::BodyHold::rigid});
  report("Electric held rigidly, 123 N", "cradle, N", "trade reference 3.5 [E]", 340, got.cradle,
         0.08 * 340);
  EXPECT_NEAR(got.cradle, 340, 0.08 * 340);
  // And 2.6: 8 to 16 N m at the nut for a millimetre of bow, by the 107 N of a body that tips.
  const double root = solver::load_at({at(x, 0)}, {107}, 0).bending;
  report("Electric, a millimetre of bow by the posts", "bending at the nut, N m",
         "trade reference 2.6 [E]", 12, root, 4);
  EXPECT_NEAR(root, 12, 4);
}

TEST(DeviceStatics, ACaulBearsOnItsSupportsByTheLever)
{
  const auto got = solver::caul_load(90, 0.05, 0.15, 0.35);
  expect_near("Caul, 90 N, 100 and 200 mm from its supports", "support at the nut, N", 60,
              got.nut_support);
  expect_near("Caul, 90 N, 100 and 200 mm from its supports", "support at the body, N", 30,
              got.body_support);
  expect_near("Caul, 90 N, 100 and 200 mm from its supports", "bending, N m", 6, got.bending);
  EXPECT_THROW(solver::caul_load(90, 0.2, 0.15, 0.35), std::invalid_argument);
}
} // namespace overbend::tests
