// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read_case.h"
#include "solver/fret_surface.h"
#include "solver/generating_histories.h"
#include "solver/neck_angle.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// Whole necks read on worn frets, and the tilt that a bow gives to an edge at the bridge.
namespace overbend::tests
{
namespace
{
struct Planned
{
  PlanNeck neck;
  solver::FoundNeck found;
  solver::PlanColumn plan;

  explicit Planned(const cases::Case &c) : neck(c)
  {
    const solver::ThermalHistory heat = solver::heat_of(neck.work, neck.c.phases);
    found = solver::find_start(neck.c, neck.work.model, neck.work.bench, neck.work.lines,
                               neck.work.found_strings, neck.work.mechanics);
    plan = solver::make_plan(neck.input, neck.work, heat, found);
  }
};
} // namespace

// The same wood, once read and asked for on the wood, once on frets of which some are worn: what is
// read and asked differs by the closed form of fret_surface.h, neck and clamp do not.
TEST(PlanOnWornFrets, IsThePlanOfTheSameWoodReadOnTheWood)
{
  cases::Case wood = guard_case();
  wood.readings.fret_heights = {{1, {0, -0.06e-3}}, {wood.found.bow_fret, {-0.12e-3, -0.08e-3}}};
  cases::Case frets = wood;
  wood.readings.edge_on = cases::EdgeOn::wood;
  const solver::Reading f = solver::of_surface(frets);
  ASSERT_GT(f.bow, 0.05e-3);
  ASSERT_GT(std::abs(f.twist), 1e-3);
  frets.found.bow_bass += f.bow_bass;
  frets.found.bow_centre += f.bow;
  frets.found.bow_treble += f.bow_treble;
  frets.found.twist = frets.found.twist.value_or(0) + f.twist;
  frets.target.relief += f.bow;
  frets.target.twist += f.twist;
  const Planned on_wood(wood), on_frets(frets);
  EXPECT_NEAR(on_frets.plan.setting.bow, on_wood.plan.setting.bow, 1e-9);
  EXPECT_NEAR(on_frets.plan.setting.twist, on_wood.plan.setting.twist, 1e-8);
  report("Plan on worn frets", "reached on frets less on wood, mm", "closed form of the heights",
         1e3 * f.bow, 1e3 * (on_frets.plan.reached.bow - on_wood.plan.reached.bow), 1e-6);
  EXPECT_NEAR(on_frets.plan.reached.bow - on_wood.plan.reached.bow, f.bow, 1e-9);
  EXPECT_NEAR(on_frets.plan.reached.twist - on_wood.plan.reached.twist, f.twist, 1e-8);
  EXPECT_TRUE(on_frets.plan.on_target);
  EXPECT_NEAR(on_frets.plan.diagnosis.found.bow, on_wood.plan.diagnosis.found.bow, 1e-12);
}

// A bow that string pull makes, on a body held hard, read along the frets to the bridge: the arc of
// neck_angle.h against the neck's own line.
TEST(EdgeOverTheBridge, ABowOfTheModelMovesItAsTheArcSays)
{
  cases::Case c = cases::preset_case("steel-string acoustic");
  c.numerics.resolution = 0.5;
  c.bench.hold = cases::BodyHold::rigid;
  PlanNeck neck(c);
  const solver::BoardShape shape = neck.work.lines.shape(neck.under(neck.cord_pull(-100, -100)));
  const double bow =
      solver::bow_at_fret(shape.centre, c.found.bow_fret, c.found.rest_fret_a, c.found.rest_fret_b)
          .bow;
  ASSERT_GT(bow, 0.1e-3);
  const double edge =
      solver::edge_carried_to(shape.centre, c.found.rest_fret_a, c.neck.scale_length);
  const double arc = solver::over_bridge_by_bow(c, bow);
  report("Edge carried to the bridge over a bowed neck", "height at the bridge over the bow, 1",
         "arc that leaves the body's line at the join", arc / bow, edge / bow, 0.6);
  EXPECT_NEAR(edge / bow, arc / bow, 0.6);
  EXPECT_LT(edge, 0);
}
} // namespace overbend::tests
