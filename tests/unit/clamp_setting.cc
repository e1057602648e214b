// SPDX-License-Identifier: GPL-3.0-or-later
// How the pulls of a pass follow from its overbend.
#include "solver/plan/clamp_setting.h"

#include <gtest/gtest.h>

#include <stdexcept>

using namespace overbend;
using solver::ClampSetting;
using solver::cold_setting;
using solver::PullRule;

namespace
{
// Found 0.8 mm forward with a twist; the bench reads straight at 0.05 mm of the model.
const PullRule rule{{0.8e-3, 0.008}, {0.05e-3, -0.001}, 1};

void expect_near(const ClampSetting &got, double bow, double twist)
{
  EXPECT_NEAR(got.bow, bow, 1e-15);
  EXPECT_NEAR(got.twist, twist, 1e-15);
}

std::vector<cases::Phase> phases_of(const std::vector<bool> &decides)
{
  std::vector<cases::Phase> phases;
  for (const bool one : decides) {
    phases.emplace_back();
    phases.back().pull.kind = cases::Pull::Kind::to_reading;
    phases.back().pull.decides = one;
  }
  return phases;
}
} // namespace

TEST(ColdSetting, IsStraightWhereTheOverbendLiesBeyondIt)
{
  expect_near(cold_setting(rule, {-0.7e-3, -0.004}), 0.05e-3, -0.001);
}

// A small overbend that ends short of straight, bow and twist each for itself.
TEST(ColdSetting, IsNeverBeyondTheOverbend)
{
  expect_near(cold_setting(rule, {0.3e-3, -0.004}), 0.3e-3, -0.001);
  expect_near(cold_setting(rule, {-0.7e-3, 0.002}), 0.05e-3, 0.002);
  expect_near(cold_setting(rule, {0.3e-3, 0.002}), 0.3e-3, 0.002);
}

// A twist that is to be left, or a bow that is to grow: the cold pull does not go the other way.
TEST(ColdSetting, StaysWhereItIsWhenTheOverbendLeadsAwayFromStraight)
{
  expect_near(cold_setting(rule, {-0.7e-3, 0.008}), 0.05e-3, 0.008);
  expect_near(cold_setting(rule, {1.1e-3, 0.012}), 0.8e-3, 0.008);
}

// A neck turned over is bent forward, from below zero.
TEST(ColdSetting, IsTheSameOfABackBow)
{
  const PullRule back{{-0.8e-3, -0.008}, {0.05e-3, 0.001}, 1};
  expect_near(cold_setting(back, {0.7e-3, 0.004}), 0.05e-3, 0.001);
  expect_near(cold_setting(back, {-0.3e-3, -0.002}), -0.3e-3, -0.002);
}

TEST(ColdSetting, GoesAShareOfTheWayWhereALimitBindsCold)
{
  PullRule some = rule;
  some.cold_share = 0.4;
  expect_near(cold_setting(some, {-0.7e-3, -0.004}), 0.8e-3 - 0.4 * 0.75e-3, 0.008 - 0.4 * 0.009);
  some.cold_share = 0;
  expect_near(cold_setting(some, {-0.7e-3, -0.004}), 0.8e-3, 0.008);
}

TEST(WithSetting, FillsTheOverbendInWhereThePullDecidesAndTheColdReadingElsewhere)
{
  std::vector<cases::Phase> phases = phases_of({false, true, true});
  phases.insert(phases.begin() + 1, cases::Phase());
  const auto filled = solver::with_setting(phases, rule, {-0.7e-3, -0.004});
  ASSERT_EQ(filled.size(), 4u);
  expect_near({filled[0].pull.bow, filled[0].pull.twist}, 0.05e-3, -0.001);
  expect_near({filled[1].pull.bow, filled[1].pull.twist}, 0, 0);
  EXPECT_EQ(filled[1].pull.kind, cases::Pull::Kind::none);
  for (const unsigned hot : {2u, 3u})
    expect_near({filled[hot].pull.bow, filled[hot].pull.twist}, -0.7e-3, -0.004);
}

TEST(WithSetting, NeedsAPullThatDecides)
{
  EXPECT_THROW(solver::with_setting({cases::Phase()}, rule, {}), std::logic_error);
  EXPECT_THROW(solver::deciding_phase(phases_of({false})), std::logic_error);
  EXPECT_EQ(solver::deciding_phase(phases_of({false, true, true})), 1u);
}

// The second hot reading is the one that pulls nothing by itself.
TEST(WithSecondSetting, PullsAtTheSecondHotReadingAlone)
{
  std::vector<cases::Phase> phases = phases_of({false, true});
  for (cases::Phase &phase : phases)
    phase.kind = cases::PhaseKind::reread;
  EXPECT_THROW(solver::with_second_setting(phases, {}), std::logic_error);
  phases.emplace_back();
  phases.back().kind = cases::PhaseKind::reread;
  const auto filled = solver::with_second_setting(phases, {-0.6e-3, 0.002});
  EXPECT_EQ(filled[2].pull.kind, cases::Pull::Kind::to_reading);
  expect_near({filled[2].pull.bow, filled[2].pull.twist}, -0.6e-3, 0.002);
  for (const unsigned before : {0u, 1u})
    expect_near({filled[before].pull.bow, filled[before].pull.twist}, 0, 0);
}
