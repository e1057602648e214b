// SPDX-License-Identifier: GPL-3.0-or-later
// What the numbers of a simulated correction are judged by. The columns are written by hand; the
// bench and its temperatures are real ones.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/verdict.h"

#include "cases/read_case.h"
#include "materials/sorption.h"
#include "mesh/make_neck_mesh.h"
#include "solver/bench_heat.h"
#include "solver/moisture.h"

#include <memory>

using namespace overbend;
using solver::Limit;
using solver::Verdict;
using ::testing::Contains;
using ::testing::HasSubstr;

namespace
{
constexpr double celsius = 273.15;

cases::Case the_case(const char *glue)
{
  cases::Case c = cases::preset_case("electric");
  c.board_glue.kind = glue;
  return c;
}

class JudgeAfter : public ::testing::Test
{
protected:
  void use(const cases::Case &chosen)
  {
    c = chosen;
    neck = mesh::make_neck_mesh(c.neck, 0.5);
    input = std::make_unique<solver::PlanInput>(
        solver::PlanInput{c, neck, materials::tables(), [](const std::string &) {}, {}});
    bench = std::make_unique<solver::Workbench>(*input, solver::ModelChoices{});
    warm([](double) { return celsius + 55; });
    column.on_target = true;
  }
  void SetUp() override { use(the_case("white PVA")); }

  // Temperature along the neck, all the time.
  void warm(const std::function<double(double)> &along)
  {
    solver::ThermalState state;
    for (const auto &p : bench->model.space.position)
      state.temperature.push_back(along(p[0]));
    heat = {};
    heat.add(state);
    double time = 0;
    for (const cases::Phase &phase : c.phases)
      time += phase.duration;
    state.time = time;
    heat.add(state);
  }
  // One moisture content all over, all the time.
  solver::MoistureHistory water(double moisture) const
  {
    solver::MoistureHistory history;
    const std::vector<double> nodal(bench->model.space.position.size(), moisture);
    history.add(0, nodal);
    history.add(heat.end(), nodal);
    return history;
  }
  Verdict judge() { return solver::judge_after(column, *bench, heat, nullptr, c); }
  void expect_refused(const std::string &because)
  {
    const Verdict v = judge();
    EXPECT_EQ(v.kind, Verdict::do_not);
    EXPECT_THAT(v.reasons, Contains(HasSubstr(because)));
    EXPECT_FALSE(v.alternatives.empty());
  }

  cases::Case c;
  mesh::NeckMesh neck;
  std::unique_ptr<solver::PlanInput> input;
  std::unique_ptr<solver::Workbench> bench;
  solver::ThermalHistory heat;
  solver::PlanColumn column;
};
} // namespace

TEST_F(JudgeAfter, HasNothingAgainstAPlanOnTarget)
{
  EXPECT_EQ(judge().kind, Verdict::do_it);
}

TEST_F(JudgeAfter, CordPullOverbendAndTwistOutOfReach)
{
  column.on_target = false;
  column.limit = Limit::cord_pull;
  expect_refused("A cord would have to pull more than 150 N");
  column.limit = Limit::overbend;
  expect_refused("further past straight");
  column.limit = Limit::twist_out_of_reach;
  expect_refused("Two cords cannot make the torque");
}

// Both ends cold lock the line however soft its middle (closed form of locked ends, [E]).
TEST_F(JudgeAfter, BothEndsColdIsNamedAsTheReason)
{
  column.limit = Limit::line_does_not_move;
  const double join = cases::fret_position(c.neck.scale_length, c.neck.join_fret);
  warm([&](double x) { return celsius + (x > 60e-3 && x < join - 30e-3 ? 62 : 21); });
  expect_refused("Both ends of the board's glue line stay cold");
  EXPECT_THAT(judge().alternatives, Contains(HasSubstr("nut")));
  // One end warm: that is not the reason.
  warm([&](double x) { return celsius + (x < join - 30e-3 ? 62 : 21); });
  EXPECT_THAT(judge().reasons, Not(Contains(HasSubstr("Both ends"))));
}

TEST_F(JudgeAfter, DryAnimalGlueIsNamedAsTheReason)
{
  use(the_case("hot hide"));
  column.limit = Limit::line_does_not_move;
  expect_refused("needs heat and moisture together");
}

// Source: Gordon-Taylor anchored on 25 % of water at 25 degC (materials table, [C]): hide glue at
// rest with 45 % humidity softens near 83 degC, with 70 % near 48.5 degC. Wood of 8.5 and 13 % is
// at rest with these (sorption curve of the handbook).
TEST_F(JudgeAfter, TheLineIsJudgedAtTheHumidityOfTheWoodBesideIt)
{
  use(the_case("hot hide"));
  const auto at = [&](double humidity) {
    const solver::MoistureHistory history =
        water(materials::equilibrium_moisture(293.15, humidity));
    return solver::line_warmth(*bench, heat, &history);
  };
  const solver::LineWarmth dry = at(0.45), damp = at(0.70);
  EXPECT_NEAR(dry.softens_driest, celsius + 83, 1);
  EXPECT_NEAR(damp.softens_driest, celsius + 48.5, 1);
  EXPECT_TRUE(dry.hard_throughout());
  EXPECT_FALSE(damp.hard_throughout());
  EXPECT_NEAR(dry.humidity, 0.45, 0.005);
  EXPECT_NEAR(damp.driest, 0.70, 0.005);
}

TEST_F(JudgeAfter, CrossLinkedGlueIsNamedAsTheReason)
{
  use(the_case("cross-linked PVA"));
  column.limit = Limit::line_does_not_move;
  expect_refused("is cross-linked");
}

TEST_F(JudgeAfter, ColdLineIsNamedAsTheReason)
{
  column.limit = Limit::line_does_not_move;
  warm([](double) { return celsius + 25; });
  expect_refused("still too stiff");
}

// [E]: refuse above 0.8 of the strength, warn above 0.5; glue shear above a third of the bond's.
TEST_F(JudgeAfter, StrengthUsed)
{
  solver::Peak peak;
  peak.mode = "shear along the grain";
  peak.value = 0.49;
  column.peaks.use["shaft"] = peak;
  EXPECT_EQ(judge().kind, Verdict::do_it);
  column.peaks.use["board glue line"] = peak;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  column.peaks.use.erase("board glue line");
  column.peaks.use["shaft"].value = 0.51;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  column.peaks.use["shaft"].value = 0.81;
  expect_refused("of its strength");
}

TEST_F(JudgeAfter, GlueAndSurfaceAboveTheirLimit)
{
  column.peaks.hottest_glue = celsius + 66;
  expect_refused("glue line would reach");
  column.peaks.hottest_glue = celsius + 50;
  column.peaks.hottest_board_top = celsius + 67;
  expect_refused("top would reach");
}

TEST_F(JudgeAfter, TunersThatShouldNotCarryThePull)
{
  c.bench.cord_limit = 300;
  solver::PhaseEnd phase;
  phase.largest_cord = {100, 151};
  column.history.phases = {phase};
  expect_refused("these tuners");
}

TEST_F(JudgeAfter, TargetMissed)
{
  column.on_target = false;
  column.wanted.bow = 0.2e-3;
  column.reached.bow = 0.25e-3;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  column.reached.bow = 0.35e-3;
  expect_refused("off its target");
}

TEST_F(JudgeAfter, CeilingOfSlipIsSaid)
{
  column.diagnosis.found.bow = 1.5e-3;
  column.diagnosis.ceiling = 0.5e-3;
  column.diagnosis.slip_bow = 0.5e-3;
  column.diagnosis.wood_bow = 1e-3;
  const Verdict v = judge();
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions, Contains(HasSubstr("Heat and strings explain at most 0.50 mm (20 thou) "
                                             "of the 1.50 mm (59 thou)")));
}
