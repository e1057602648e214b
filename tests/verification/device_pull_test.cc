// SPDX-License-Identifier: GPL-3.0-or-later
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/bench/device_reach.h"
#include "solver/words/pull_names.h"
#include "tests/report.h"
#include "tests/verification/device_neck.h"

#include <cmath>

// Pulling to a reading with each device: what it reaches, what not, mirror images, and units.
namespace overbend::tests
{
namespace
{
using cases::Device;
using ::testing::HasSubstr;

constexpr double degree = 3.14159265358979323846 / 180;

const RiggedDevice &device_named(const std::string &name)
{
  for (const RiggedDevice &device : rigged_devices())
    if (device.name == name)
      return device;
  throw std::out_of_range(name);
}
} // namespace

TEST(DevicePull, ReachesTheBowAndTheTwistThatItCanSet)
{
  for (const RiggedDevice &device : rigged_devices()) {
    DeviceNeck rigged(device);
    const double bow = device.direction() * 0.5e-3, twist = 0.1 * degree;
    const auto result = rigged.pull_to(bow, twist);
    const bool two = solver::sets_twist(rigged.neck.c);
    std::printf("%-28s bow %.5f mm, twist %.4f deg, pulls %.2f %.2f N, cradle %.1f N\n",
                device.name.c_str(), 1e3 * rigged.reading.bow, rigged.reading.twist / degree,
                rigged.forces.cord[0], rigged.forces.cord[1], rigged.forces.cradle);
    report("Pull to a reading, " + device.name, "bow, mm", "what was asked for", 1e3 * bow,
           1e3 * rigged.reading.bow, 1e-4);
    EXPECT_NEAR(rigged.reading.bow, bow, 1e-7) << device.name;
    EXPECT_EQ(result.reached, two) << device.name;
    if (two) {
      EXPECT_NEAR(rigged.reading.twist, twist, 1e-6) << device.name;
    }
    EXPECT_FALSE(result.slack[0] || result.slack[1]) << device.name;
  }
}

// The torque of the bar is beyond what two cords at the posts can make at the same pull: with them
// one goes slack, as statics say before anything is pulled. (With more twist at so little pull,
// about 0.55 deg, the pad opens at an edge and the neck rocks over it: it then reads 0.5 or 1.1 deg
// and nothing between.)
TEST(DevicePull, GoesAsFarInTwistAsTheStaticsOfTheDeviceSay)
{
  const double bow = -0.3e-3, twist = 0.45 * degree;
  DeviceNeck bar(device_named("headstock bar")), posts(device_named("posts"));
  EXPECT_TRUE(bar.pull_to(bow, twist).reached);
  EXPECT_FALSE(posts.pull_to(bow, twist).reached);
  EXPECT_TRUE(posts.result.slack[1]);
  EXPECT_EQ(posts.forces.cord[1], 0);
  const auto of = [](const DeviceNeck &rigged) {
    const auto pulls = solver::device_pulls(rigged.neck.c, materials::tables());
    return std::pair(pulls, solver::load_of(pulls, {rigged.forces.cord[0], rigged.forces.cord[1]}));
  };
  const auto [bar_pulls, bar_load] = of(bar);
  const auto [post_pulls, post_load] = of(posts);
  const std::vector<double> free = {1e9, 1e9};
  EXPECT_GT(bar_load.torque, solver::torque_range(post_pulls, bar_load.pull, free).value().most);
  const double most = solver::torque_range(post_pulls, post_load.pull, free).value().most;
  report("Posts with one cord slack", "torque, N m", "largest by statics", most, post_load.torque,
         1e-9);
  EXPECT_NEAR(post_load.torque, most, 1e-9);
  // Twist follows torque alike with both devices, but for the part that the cradle's pad takes: it
  // opens at one edge as the torque grows against the pull.
  EXPECT_NEAR(posts.reading.twist / post_load.torque / (bar.reading.twist / bar_load.torque), 1,
              0.15);
}

TEST(DevicePull, MirroredTwistMirrorsThePulls)
{
  for (const char *name :
       {"posts", "headstock bar", "strap and bar", "headstock bar, turned over"}) {
    DeviceNeck rigged(device_named(name));
    const double bow = device_named(name).direction() * 0.5e-3;
    rigged.pull_to(bow, 0.15 * degree);
    const auto one = rigged.forces.cord;
    rigged.pull_to(bow, -0.15 * degree);
    const auto other = rigged.forces.cord;
    const bool couple = device_named(name).device == Device::strap_and_bar;
    const double partner[2] = {couple ? other[0] : other[1], couple ? -other[1] : other[0]};
    for (unsigned k = 0; k < 2; ++k) {
      report(std::string("Pull mirrored, ") + name, "pull, N", "symmetry", one[k], partner[k],
             1e-3);
      EXPECT_NEAR(one[k], partner[k], 1e-3) << name;
    }
    EXPECT_GT(std::abs(one[1]), 0.5) << name;
  }
  // Posts in line of the other side twist the other way.
  RiggedDevice bass = device_named("posts in line"), treble = bass;
  treble.layout = cases::TunerLayout::treble_line;
  DeviceNeck one(bass), other(treble);
  one.pull_to(-0.5e-3, 0);
  other.pull_to(-0.5e-3, 0);
  // Drawing the bass edge down raises the treble corner.
  EXPECT_GT(one.reading.twist, 0.05 * degree);
  EXPECT_NEAR(other.reading.twist, -one.reading.twist, 1e-4 * one.reading.twist);
}

// Hot, the line lets the neck run on. Where that is past the reading, what pulls hangs loose and
// the neck is left where it is: here the unstressed neck, asked for a bow that cords would have to
// push.
TEST(DevicePull, ANeckThatRanPastTheReadingIsLeftThere)
{
  for (const char *name : {"strap", "posts"}) {
    DeviceNeck rigged(device_named(name));
    rigged.problem.ran_on = true;
    const auto result = rigged.pull_to(0.4e-3, 0);
    EXPECT_FALSE(result.reached) << name;
    EXPECT_TRUE(result.slack[0]) << name;
    EXPECT_EQ(rigged.forces.cord[0], 0) << name;
    EXPECT_EQ(rigged.forces.cord[1], 0) << name;
    EXPECT_NEAR(rigged.reading.bow, 0, 1e-8) << name;
  }
}

// A strap cannot push the neck forward: said with what it came to.
TEST(DevicePull, ABowThatWouldHaveToBePushedIsRefusedByName)
{
  DeviceNeck strap(device_named("strap"));
  try {
    strap.pull_to(0.4e-3, 0);
    FAIL() << "a strap pushed";
  } catch (const solver::StepFailed &failure) {
    EXPECT_THAT(failure.what(), HasSubstr("can only pull"));
    EXPECT_THAT(failure.what(), HasSubstr("strap slack"));
  }
  EXPECT_THROW(strap.pull_to(std::nan(""), 0), std::invalid_argument);
}

// Take-ups by the units against two full pulls a little apart; contact stays as it is. Springs and
// wood are linear, the pad's edge may open: 1 %.
TEST(DeviceUnits, FollowTwoFullPulls)
{
  for (const char *name :
       {"posts", "posts in line", "strap and bar", "headstock bar, turned over", "caul"}) {
    const RiggedDevice &device = device_named(name);
    DeviceNeck rigged(device);
    const bool two = solver::sets_twist(rigged.neck.c);
    const double bow = device.direction() * 0.5e-3, twist = two ? 0.1 * degree : 0;
    const double by_bow = 0.01e-3, by_twist = two ? 0.01 * degree : 0;
    for (const bool of_twist : {false, true}) {
      if (of_twist && !two)
        continue;
      const double db = of_twist ? 0 : by_bow, dt = of_twist ? by_twist : 0;
      rigged.pull_to(bow + db, twist + dt);
      const auto high = rigged.problem.offsets.take_up;
      rigged.pull_to(bow - db, twist - dt);
      const auto low = rigged.problem.offsets.take_up;
      rigged.pull_to(bow, twist);
      const auto unit = rigged.unit_take_up(2 * db, 2 * dt);
      double size = 0;
      for (unsigned k = 0; k < 2; ++k)
        size = std::max(size, std::abs(high[k] - low[k]));
      EXPECT_GT(size, 1e-6) << device.name;
      for (unsigned k = 0; k < rigged.neck.work.bench.n_pulls(); ++k) {
        report("Units of " + device.name,
               std::string("take-up ") + (of_twist ? "by twist" : "by bow") + ", mm",
               "two full pulls", 1e3 * (high[k] - low[k]), 1e3 * unit[k], 1e1 * size);
        EXPECT_NEAR(unit[k], high[k] - low[k], 0.01 * size) << device.name << " " << k << of_twist;
      }
    }
  }
}

// A block under the headstock stops what pulls on, whatever pulls.
TEST(DeviceBlock, StopsTheHeadstockUnderEachDevice)
{
  for (const char *name :
       {"posts in line", "strap", "strap and bar", "headstock bar, turned over"}) {
    DeviceNeck rigged(device_named(name));
    auto &bench = rigged.neck.work.bench;
    rigged.pull_to(device_named(name).direction() * 0.3e-3, 0);
    solver::BenchOffsets offsets = rigged.problem.offsets;
    bench.place_block(rigged.displacement, offsets);
    const double height = bench.headstock_height(rigged.displacement);
    offsets.take_up[0] += 2e-3;
    const auto without = rigged.neck.at_once(rigged.setup, offsets);
    solver::BenchSetup blocked = rigged.setup;
    blocked.block = true;
    const auto with = rigged.neck.at_once(blocked, offsets);
    const double drop = bench.headstock_height(without.displacement) - height,
                 stopped = bench.headstock_height(with.displacement) - height;
    // It gives by its force over its stiffness, 5e6 N/m as bench_springs.cc has it.
    const double gives = with.forces.block / 5e6;
    report(std::string("Stop block, ") + name, "way that is left, mm", "force over stiffness",
           1e3 * gives, -1e3 * stopped, 1e-4);
    EXPECT_LT(drop, -0.1e-3) << name;
    EXPECT_NEAR(-stopped, gives, 1e-7) << name;
    EXPECT_LT(stopped / drop, 0.05) << name;
    EXPECT_GT(with.forces.block, 5) << name;
  }
}

// What is written of a run: a cord that hangs is marked, in the step and in what was not reached.
TEST(DeviceRecord, MarksACordThatHangs)
{
  GuardNeck neck(device_case(device_named("posts")));
  cases::Phase clamp = neck.c.phases.at(0);
  clamp.duration = 60;
  clamp.pull = {cases::Pull::Kind::to_reading, 0, 0, -0.3e-3, 1.2 * degree};
  const auto heat = solver::heat_of(neck.work, {clamp});
  const auto moisture = solver::moisture_of(neck.work, {clamp}, heat);
  const auto history = neck.from_unstressed({clamp}, heat, moisture);
  EXPECT_FALSE(history.phases.at(0).pull_reached);
  for (const solver::StepRecord &step : history.steps) {
    EXPECT_FALSE(step.slack[0]);
    EXPECT_TRUE(step.slack[1]);
  }
}
} // namespace overbend::tests
