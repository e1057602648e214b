// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "solver/history/generating_histories.h"
#include "solver/readings/fret_surface.h"
#include "solver/readings/neck_angle.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
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
    found = solver::find_start(neck.work.neck(), neck.work.found_strings);
    plan = solver::make_plan(neck.input, neck.work, heat, found);
  }
};
} // namespace

// The same wood, once read and asked for on the wood, once on frets of which some are worn: what is
// read and asked differs by the closed form of fret_surface.h, neck and clamp do not.
TEST(PlanOnWornFrets, IsThePlanOfTheSameWoodReadOnTheWood)
{
  cases::Case wood = guard_case();
  wood.numerics.bow_error = 0.2e-3;
  // Clamp, heat and release alone: what both plans do alike need not be long.
  std::vector<cases::Phase> phases;
  for (cases::Phase phase : wood.phases) {
    phase.duration = std::min(phase.duration, 1200.);
    if (phase.kind == cases::PhaseKind::clamp || phase.kind == cases::PhaseKind::heat ||
        phase.kind == cases::PhaseKind::release)
      phases.push_back(phase);
  }
  wood.phases = phases;
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
  EXPECT_EQ(on_frets.plan.on_target, on_wood.plan.on_target);
  EXPECT_NEAR(on_frets.plan.diagnosis.found.bow, on_wood.plan.diagnosis.found.bow, 1e-12);
}

// Bows as necks take them, by slip of the glue line and by years of pull, unloaded, read along the
// frets to the bridge: the arc of neck_angle.h against the neck's own line. The tolerance is the
// error of the reading itself (0.5 mm) on a bow of a millimetre.
TEST(EdgeOverTheBridge, ABowOfTheModelMovesItAsTheArcSays)
{
  cases::Case c = cases::preset_case("steel-string acoustic");
  c.board_glue.kind = "white PVA";
  c.numerics.resolution = 0.5;
  PlanNeck neck(c);
  solver::Generator generator(neck.work.neck());
  solver::Cause pull;
  pull.strings = &neck.work.found_strings;
  constexpr double year = 31557600;
  for (const bool by_slip : {true, false}) {
    const solver::MechanicsState state =
        by_slip ? generator.slip(pull) : generator.creep(pull, 20 * year);
    const solver::SampledLine line = neck.work.lines.shape(state.displacement).centre;
    const double bow =
        solver::bow_at_fret(line, c.found.bow_fret, c.found.rest_fret_a, c.found.rest_fret_b).bow;
    ASSERT_GT(bow, 0.05e-3);
    const double edge = solver::edge_carried_to(line, c.found.rest_fret_a, c.neck.scale_length);
    const double arc = solver::over_bridge_by_bow(c, bow);
    report(by_slip ? "Edge over the bridge, bow by slip" : "Edge over the bridge, bow by creep",
           "height at the bridge for one of bow, 1", "arc that leaves the body's line at the join",
           arc / bow, edge / bow, 0.5);
    EXPECT_NEAR(edge / bow, arc / bow, 0.5);
  }
}
} // namespace overbend::tests
