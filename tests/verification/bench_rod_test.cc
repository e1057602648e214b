// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/neck_mesh.h"
#include "solver/model/interfaces.h"
#include "tests/report.h"
#include "tests/verification/bench_beam.h"

#include <gtest/gtest.h>

#include <cmath>

// Rods in a straight beam against bending theory: what they do, and what is done to them.
namespace overbend::tests
{
namespace
{
using solver::BenchOffsets;

constexpr double modulus = 13.86e9, width = 0.05, depth = 0.0218; // of the beam
constexpr double channel = 0.018, diameter = 0.005;               // rod
constexpr double near_end = 0.01, far_end = 0.38; // its anchors, as bench.cc has them
constexpr double length = far_end - near_end;
const double EA = modulus * width * depth, EI = EA * depth * depth / 12;
const double pi = std::acos(-1.), section = pi / 4 * diameter * diameter;

BenchBeam beam_with(cases::RodKind kind, double force, double expansion = 0,
                    cases::RodBows bows = cases::RodBows::back)
{
  mesh::LayeredBeam shape;
  shape.board_thickness = 0;
  shape.width = width;
  shape.shaft_depth = depth;
  shape.cells_along = 30; // nodes lie evenly about both anchors
  materials::Wood wood = rigid_in_shear(modulus);
  wood.expansion = {expansion, 0, 0};
  return {shape, {wood, wood, {}}, [&](cases::Case &c) {
            c.neck.rod.kind = kind;
            c.neck.rod.channel_width = 0.012;
            c.neck.rod.channel_depth = channel;
            c.neck.rod.diameter = diameter;
            c.neck.rod.force = force;
            c.neck.rod.bows = bows;
          }};
}

solver::BenchSetup with_rod(cases::RodState state, bool dead_load = false)
{
  solver::BenchSetup setup = bare_bench();
  setup.rod = state;
  setup.rod_is_dead_load = dead_load;
  return setup;
}

// Sets the rod to its pull in the unstressed beam under a load; what it is a spring about then.
BenchOffsets set_rod(BenchBeam &b, const std::vector<double> &load = {})
{
  BenchOffsets offsets;
  b.at_once(with_rod(cases::RodState::set, true), offsets, load);
  b.bench->rod_becomes_spring(b.displacement, 0, offsets);
  return offsets;
}

// A single-action rod's distance below the middle of the section, its own stiffness, and the
// stiffness of rod and beam in series between the anchors, by the theory of bending.
const double arm = channel - diameter / 2 - depth / 2;
double steel_stiffness()
{
  return materials::tables().bar("steel").modulus * section / length;
}
double stiffness_in_series()
{
  return 1 / (1 / steel_stiffness() + length * (1 / EA + arm * arm / EI));
}
const char *const beam_theory = "bending theory, anchors at points";
} // namespace

// M = F e about the middle of the section between the anchors, none beyond.
TEST(SingleActionRod, BowsTheBeamBackByItsPullTimesItsArm)
{
  BenchBeam b = beam_with(cases::RodKind::single_action, 600);
  const BenchOffsets offsets = set_rod(b);
  const double expected = -600 * arm / EI, got = b.curvature(0.2, 0.04);
  report("Single-action rod of 600 N", "curvature between the anchors, 1/m", "F e / EI", expected,
         got, 0.002 * std::abs(expected));
  EXPECT_NEAR(got / expected, 1, 0.002);
  // As a spring it holds the same force and the same shape.
  const auto as_load = b.displacement;
  b.at_once(with_rod(cases::RodState::set), offsets);
  EXPECT_NEAR(b.forces().rod, 600, 1e-3);
  EXPECT_NEAR(b.curvature(0.2, 0.04) / got, 1, 1e-5);
  double difference = 0, largest = 0;
  for (std::size_t i = 0; i < as_load.size(); ++i) {
    difference = std::max(difference, std::abs(as_load[i] - b.displacement[i]));
    largest = std::max(largest, std::abs(as_load[i]));
  }
  EXPECT_LT(difference, 1e-5 * largest);
}

// A bow stretches what lies below the middle by e theta, theta the turn between the anchors; rod
// and beam share it as springs in series.
TEST(SingleActionRod, ItsPullGrowsByItsArmTimesTheTurnOfAForwardBowAndFallsInABackBow)
{
  BenchBeam b = beam_with(cases::RodKind::single_action, 600);
  const BenchOffsets offsets = set_rod(b);
  for (const double moment : {2., -2.}) {
    b.at_once(with_rod(cases::RodState::set), offsets, b.end_moment(moment));
    const double turn = moment / EI * length;
    const double expected = stiffness_in_series() * arm * turn, got = b.forces().rod - 600;
    report("Single-action rod, bow by a moment of " + std::to_string(int(moment)) + " N m",
           "change of its pull, N", beam_theory, expected, got, 0.02 * std::abs(expected));
    EXPECT_NEAR(got / expected, 1, 0.02);
  }
}

// Steel grows more than wood along the grain: the rod loses (alpha_s - alpha_w) L dT times the
// stiffness in series.
TEST(SingleActionRod, LosesPullWhenTheNeckIsWarmAsSteelGrowsMore)
{
  constexpr double growth = 4e-6, warmth = 15;
  BenchBeam b = beam_with(cases::RodKind::single_action, 600, growth);
  const BenchOffsets offsets = set_rod(b);
  const double steel = materials::tables().bar("steel").expansion;
  b.at_once(with_rod(cases::RodState::set), offsets, {}, warmth);
  const double expected = stiffness_in_series() * (growth - steel) * length * warmth,
               got = b.forces().rod - 600;
  report("Single-action rod, 15 K warmer", "change of its pull, N", beam_theory, expected, got,
         0.02 * std::abs(expected));
  EXPECT_LT(expected, -50);
  EXPECT_NEAR(got / expected, 1, 0.02);
}

TEST(SingleActionRod, NeverPushesWhenItHasGoneSlack)
{
  BenchBeam b = beam_with(cases::RodKind::single_action, 50);
  const BenchOffsets offsets = set_rod(b);
  // A back-bow that would turn 50 N into a push.
  const auto moment = b.end_moment(-6);
  b.at_once(with_rod(cases::RodState::set), offsets, moment);
  EXPECT_EQ(b.forces().rod, 0);
  const double with = b.curvature(0.2, 0.04);
  report("Single-action rod gone slack in a back-bow", "curvature, 1/m", "M / EI of the bare beam",
         -6 / EI, with, 1e-3 * 6 / EI);
  EXPECT_NEAR(with, -6 / EI, 1e-3 * 6 / EI);
}

// A slack or broken rod is as good as none, whatever its force is told to be.
TEST(Rod, SlackOrBrokenIsAsIfItWereNotThere)
{
  for (const auto kind : {cases::RodKind::single_action, cases::RodKind::two_way})
    for (const auto state : {cases::RodState::slack, cases::RodState::broken}) {
      BenchBeam b = beam_with(kind, 600);
      for (const double moment : {2., -2.}) {
        b.at_once(with_rod(state), {}, b.end_moment(moment));
        EXPECT_EQ(b.forces().rod, 0);
        report("Slack or broken rod", "curvature, 1/m", "M / EI of the bare beam", moment / EI,
               b.curvature(0.2, 0.04), 1e-3 * 2 / EI);
        EXPECT_NEAR(b.curvature(0.2, 0.04), moment / EI, 1e-3 * 2 / EI);
      }
    }
}

namespace
{
// A seized rod with its pull in the beam as found under a moment and in some warmth; what it is a
// spring about from there on.
BenchOffsets seize(BenchBeam &b, double moment, double warmth)
{
  solver::BenchSetup found = with_rod(cases::RodState::seized, true);
  BenchOffsets offsets;
  b.at_once(found, offsets, b.end_moment(moment), warmth);
  found.rod = cases::RodState::slack; // and now it is looked at
  cases::Phase phase;
  phase.nut = false;
  phase.rod = cases::RodState::seized;
  b.bench->change(phase, nullptr, b.displacement, warmth, found, offsets);
  EXPECT_FALSE(found.rod_is_dead_load);
  return offsets;
}
} // namespace

// A seized rod pulls with its force in the neck as found. From there on it keeps its length: it
// resists both ways, and pushes when a back-bow asks more of it than it pulls.
TEST(Rod, SeizedItPullsWithItsForceAsFoundAndBothWaysFromThere)
{
  constexpr double growth = 4e-6, found = 1.5, warmth = 5; // 1/K, N m, K
  BenchBeam b = beam_with(cases::RodKind::single_action, 600, growth);
  const BenchOffsets offsets = seize(b, found, warmth);
  const auto setup = with_rod(cases::RodState::seized);
  const double steel = materials::tables().bar("steel").expansion;
  double least = 600;
  for (const double more : {0., 2., -2., -20.})
    for (const double warmer : {0., 15.}) {
      b.at_once(setup, offsets, b.end_moment(found + more), warmth + warmer);
      const double bent = arm * more / EI * length, warm = (growth - steel) * length * warmer;
      const double expected = 600 + stiffness_in_series() * (bent + warm),
                   tolerance = 0.02 * std::abs(expected - 600) + 0.1;
      report("Seized rod of 600 N, moment changed by " + std::to_string(int(more)) + " N m, " +
                 std::to_string(int(warmer)) + " K warmer",
             "its pull, N", beam_theory, expected, b.forces().rod, tolerance);
      EXPECT_NEAR(b.forces().rod, expected, tolerance);
      least = std::min(least, b.forces().rod);
    }
  EXPECT_LT(least, -100);
}

// What it does to the neck is done once: found with the pull in it, the shape does not move when
// the pull becomes that of a spring.
TEST(Rod, SeizedItBendsTheNeckOnce)
{
  BenchBeam b = beam_with(cases::RodKind::single_action, 600);
  const BenchOffsets offsets = seize(b, 0, 0);
  const double as_found = b.curvature(0.2, 0.04);
  report("Seized rod of 600 N", "curvature as found, 1/m", "F e / EI", -600 * arm / EI, as_found,
         0.002 * 600 * arm / EI);
  EXPECT_NEAR(as_found, -600 * arm / EI, 0.002 * 600 * arm / EI);
  b.at_once(with_rod(cases::RodState::seized), offsets);
  EXPECT_NEAR(b.curvature(0.2, 0.04), as_found, 1e-5 * std::abs(as_found));
}

// In the years before, it pulls evenly: with its force whatever the neck does.
TEST(Rod, SeizedInAHistoryItPullsEvenly)
{
  BenchBeam b = beam_with(cases::RodKind::single_action, 600);
  solver::BenchSetup setup;
  setup.rod_pulls_evenly = true;
  BenchOffsets offsets;
  cases::Phase phase;
  phase.nut = false;
  phase.rod = cases::RodState::seized;
  b.bench->change(phase, nullptr, b.beam.no_load(), 0, setup, offsets);
  for (const double moment : {0., 3.}) {
    b.at_once(setup, offsets, b.end_moment(moment));
    const double expected = (moment - 600 * arm) / EI, got = b.curvature(0.2, 0.04);
    report("Seized rod in a history, moment of " + std::to_string(int(moment)) + " N m",
           "curvature, 1/m", "(M - F e) / EI", expected, got, 0.002 * std::abs(expected) + 1e-5);
    EXPECT_NEAR(got, expected, 0.002 * std::abs(expected) + 1e-5);
  }
}

namespace
{
const double pair_arm = 1.5 * diameter; // of a two-way rod's members, as bench.cc has it
} // namespace

// Force in one member, the opposite in the other: a couple at each end and nothing else.
TEST(TwoWayRod, IsBalancedInItselfAndBowsTheBeamBetweenItsEndsAlone)
{
  for (const auto bows : {cases::RodBows::back, cases::RodBows::forward}) {
    BenchBeam b = beam_with(cases::RodKind::two_way, 600, 0, bows);
    const double force = bows == cases::RodBows::back ? 600 : -600;
    const BenchOffsets offsets = set_rod(b);
    const auto load = b.bench->load(with_rod(cases::RodState::set, true));
    std::array<double, 3> net{};
    double moment = 0;
    for (unsigned n = 0; n < b.beam.model.space.n_nodes; ++n) {
      const solver::Vec3 &p = b.beam.model.space.position[n];
      for (unsigned i = 0; i < 3; ++i)
        net[i] += load[3 * n + i];
      moment += p[2] * load[3 * n] - p[0] * load[3 * n + 2];
    }
    for (const double f : net)
      EXPECT_NEAR(f, 0, 1e-9 * std::abs(force));
    EXPECT_NEAR(moment, 0, 1e-9 * std::abs(force));
    // Nothing arrives at the body: neither force nor moment.
    std::array<double, 3> bears{};
    double turns = 0;
    for (const solver::Spring &s : b.springs)
      if (s.name == "body") {
        const unsigned unknown = s.row[0].first, i = unknown % 3;
        const double f = solver::force(s, b.displacement);
        bears[i] += f;
        turns += i == 0 ? f * b.beam.model.space.position[unknown / 3][2] : 0;
      }
    for (const double f : bears)
      EXPECT_NEAR(f, 0, 1e-4 * std::abs(force));
    EXPECT_NEAR(turns, 0, 1e-4 * std::abs(force) * pair_arm);
    const double expected = -force * pair_arm / EI, got = b.curvature(0.2, 0.04);
    report("Two-way rod of " + std::to_string(int(force)) + " N a member",
           "curvature between its ends, 1/m", "M / EI, M the force times the members' distance",
           expected, got, 0.002 * std::abs(expected));
    EXPECT_NEAR(got / expected, 1, 0.002);
    EXPECT_NEAR(b.curvature(0.2, 0.04), b.curvature(0.12, 0.04), 0.002 * std::abs(expected));
    // As a spring it tells its force with the sign of the bow that it makes, seized or not.
    for (const auto state : {cases::RodState::set, cases::RodState::seized}) {
      b.at_once(with_rod(state), offsets);
      EXPECT_NEAR(b.forces().rod, force, 0.01);
    }
  }
}

// Set, it stiffens the beam both ways as two members about their common middle:
// EI + E_s A_s arm^2 / 2; its force is that of one member.
TEST(TwoWayRod, StiffensTheBeamAlikeInForwardAndBackBowAndTellsTheForceOfAMember)
{
  BenchBeam b = beam_with(cases::RodKind::two_way, 600);
  const BenchOffsets offsets = set_rod(b);
  b.at_once(with_rod(cases::RodState::set), offsets);
  const double set_to = b.curvature(0.2, 0.04);
  EXPECT_NEAR(b.forces().rod, 600, 0.01);
  const double pair = materials::tables().bar("steel").modulus * section * pair_arm * pair_arm / 2;
  for (const double moment : {3., -3.}) {
    b.at_once(with_rod(cases::RodState::set), offsets, b.end_moment(moment));
    const double expected = moment / (EI + pair), got = b.curvature(0.2, 0.04) - set_to;
    report("Two-way rod that is set, " + std::to_string(int(moment)) + " N m on the end",
           "curvature more, 1/m", "two stiffnesses side by side", expected, got,
           0.01 * std::abs(expected));
    EXPECT_NEAR(got / expected, 1, 0.01);
    const double member = pair * expected / pair_arm;
    report("Two-way rod that is set, " + std::to_string(int(moment)) + " N m on the end",
           "change of the force in a member, N", "two stiffnesses side by side", member,
           b.forces().rod - 600, 0.02 * std::abs(member));
    EXPECT_NEAR((b.forces().rod - 600) / member, 1, 0.02);
  }
}

// Its members grow alike: warmth alone changes nothing.
TEST(TwoWayRod, KeepsItsForceInWarmth)
{
  BenchBeam b = beam_with(cases::RodKind::two_way, 600, 4e-6);
  const BenchOffsets offsets = set_rod(b);
  b.at_once(with_rod(cases::RodState::set), offsets, {}, 20);
  EXPECT_NEAR(b.forces().rod, 600, 0.1);
}
} // namespace overbend::tests
