// SPDX-License-Identifier: GPL-3.0-or-later
// What the numbers of a simulated correction are judged by.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/text/units.h"
#include "materials/sorption.h"
#include "materials/strength.h"
#include "mesh/names.h"
#include "solver/mechanics/step_failure.h"
#include "solver/plan/bench_heat.h"
#include "solver/plan/work_bounds.h"
#include "tests/unit/judge_after.h"

#include <cmath>

using namespace overbend;
using solver::Region;
using solver::Verdict;
using ::testing::Contains;
using ::testing::HasSubstr;
using tests::celsius;
using tests::JudgeAfter;
using tests::the_case;

TEST_F(JudgeAfter, HasNothingAgainstAPlanOnTarget)
{
  EXPECT_EQ(judge().kind, Verdict::do_it);
}

// The pad is a bed of springs: its largest pressure against what the back bears across the grain.
TEST_F(JudgeAfter, PressureOfTheCradleIsAShareOfTheStrengthAcrossTheGrain)
{
  const auto &wood = bench->model.piece[unsigned(mesh::Piece::shaft)].law->wood();
  const double moisture = bench->model.piece[unsigned(mesh::Piece::shaft)].moisture;
  const std::vector<double> warm(bench->model.space.n_nodes, celsius + 50);
  solver::StepRecord step;
  step.phase = 1;
  step.forces.cradle_pressure = 2e6;
  const solver::Peak peak = solver::pad_use(bench->model, c, step, warm, {});
  const double bears = materials::strengths(wood, celsius + 50, moisture).compression_across;
  EXPECT_NEAR(peak.value, 2e6 / bears, 1e-12);
  EXPECT_EQ(peak.phase, 1U);
  EXPECT_DOUBLE_EQ(peak.place[0], c.bench.cradle_x);
}

// Both ends cold lock the line however soft its middle (closed form of locked ends, [E]).
TEST_F(JudgeAfter, BothEndsColdIsNamedAsTheReason)
{
  job.line_moves = job.ends = false;
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
  job.line_moves = job.ends = false;
  expect_refused("needs heat and moisture together", Verdict::not_by_heat);
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
  job.line_moves = job.ends = false;
  expect_refused("is cross-linked", Verdict::not_by_heat);
}

TEST_F(JudgeAfter, ColdLineIsNamedAsTheReason)
{
  job.line_moves = job.ends = false;
  warm([](double) { return celsius + 25; });
  expect_refused("still too stiff", Verdict::not_by_heat);
}

// [E]: refuse above 0.8 of the strength, warn above 0.5; glue shear above a third of the bond's.
TEST_F(JudgeAfter, StrengthUsed)
{
  solver::Peak peak;
  peak.mode = "shear along the grain";
  peak.value = 0.49;
  column.peaks.use[Region::shaft] = peak;
  EXPECT_EQ(judge().kind, Verdict::do_it);
  column.peaks.use[Region::board_bond] = peak;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  column.peaks.use.erase(Region::board_bond);
  column.peaks.use[Region::shaft].value = 0.51;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  column.peaks.use[Region::shaft].value = 0.81;
  expect_refused("of its strength");
}

// [E]: a glue that flows bears half of its short strength once it has been soft for half an hour.
TEST_F(JudgeAfter, ABondThatHasBeenSoftForLongBearsLess)
{
  solver::Peak peak;
  peak.mode = "shear along the line";
  peak.value = 0.6;
  peak.hot_for = 29 * 60;
  column.peaks.use[Region::scarf_bond] = peak;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  column.peaks.use[Region::scarf_bond].hot_for = 31 * 60;
  expect_refused("The scarf glue line is used to 60 % of its strength");
  column.peaks.use[Region::scarf_bond].value = 0.49;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
  // Wood does not soften so.
  column.peaks.use = {{Region::shaft, peak}};
  column.peaks.use[Region::shaft].hot_for = 1e5;
  EXPECT_EQ(judge().kind, Verdict::with_cautions);
}

// Line 60, surface 65, fret tops 68 degC (limits.toml, common practice), with the overshoot, and
// half a degree that no thermometer tells. The bar itself has no limit.
TEST_F(JudgeAfter, EachPlaceIsHeatedToItsOwnLimitWithTheOvershoot)
{
  cases::Case hard = the_case("white PVA");
  hard.finish = hard.faces.board.kind = cases::Finish::polyester;
  hard.binding = cases::Binding::none;
  use(hard);
  solver::HeatPlaces &places = job.heat.with_overshoot;
  places = {celsius + 60.4, celsius + 65.4, celsius + 68.4, celsius + 80, celsius + 30, 0};
  job.heat.at_set_point = places;
  EXPECT_EQ(judge().kind, Verdict::do_it);
  places.line = celsius + 61;
  expect_refused(
      "The glue line under the board would reach 61 degC (142 degF) with the bar at 66 "
      "degC (151 degF) and an overshoot of 3 degC (5 degF); its limit is 60 degC (140 degF)");
  places.line = celsius + 60;
  places.board_surface = celsius + 66;
  expect_refused("The board's surface would reach 66 degC");
  places.board_surface = celsius + 65;
  places.fret_tops = celsius + 69;
  expect_refused("The tops of the frets would reach 69 degC");
}

// The back takes the print of a pad from where its finish does: 40 degC for nitrocellulose, with
// the same half degree (finishes.toml, an estimate).
TEST_F(JudgeAfter, TheBackUnderTheCradleIsHeatedToWhereItsFinishPrints)
{
  cases::Case tender = the_case("white PVA");
  tender.faces.back.kind = cases::Finish::nitro_lacquer;
  use(tender);
  job.heat.with_overshoot.back_under_cradle = celsius + 40.4;
  EXPECT_EQ(judge().kind, Verdict::do_it);
  job.heat.with_overshoot.back_under_cradle = celsius + 41;
  expect_refused("The back under the cradle would reach 41 degC (106 degF)");
}

// Held by a probe nobody sees the line under the iron: a second thermometer is asked for, with the
// figure it may come to; a line over its limit there is refused whatever the probe shows.
TEST_F(JudgeAfter, HeatHeldByARemoteProbeAsksForASecondThermometer)
{
  cases::Case by_probe = the_case("white PVA");
  by_probe.heater.held_by = cases::HeldBy::probe;
  by_probe.probe.hold_at = celsius + 48;
  use(by_probe);
  job.planned = c;
  warm([](double x) { return celsius + (x > 0.1 && x < 0.2 ? 58 : 48); });
  job.heat.with_overshoot.bar = celsius + 67;
  const Verdict v = judge();
  EXPECT_EQ(v.kind, Verdict::with_cautions);
  EXPECT_THAT(v.cautions, Contains(HasSubstr("the line has 58 degC (136 degF) there")));
  EXPECT_THAT(v.cautions,
              Contains(HasSubstr("second thermometer on the bar under the iron and stop "
                                 "when it passes 67 degC (153 degF)")));
  job.heat.with_overshoot.line = job.heat.limits.glue_line + 1;
  expect_refused("with the probe at 48 degC (118 degF) and an overshoot of 3 degC (5 degF)");
}

// What the reasons name as passed, or as what holds a pass back, is not named a second time.
TEST_F(JudgeAfter, AStrengthIsNamedOnce)
{
  job.ends = false;
  solver::Demand root{solver::Limit::strength, 1.2,  "headstock root",
                      solver::Moment::hot,     0.96, 0.8,
                      Region::headstock_root};
  job.passes[0].demands = {root};
  solver::Peak peak;
  peak.value = 0.96;
  column.peaks.use = {{Region::headstock_root, peak}, {Region::shaft, peak}};
  const auto named = [&](const char *what) {
    const Verdict v = judge();
    return std::count_if(v.reasons.begin(), v.reasons.end(), [&](const std::string &reason) {
      return reason.find(what) != std::string::npos;
    });
  };
  EXPECT_EQ(named("headstock root"), 1);
  EXPECT_EQ(named("shaft"), 1);
  root.moment = solver::Moment::cold;
  root.asked = 0.9;
  root.share = 0.9 / 0.8;
  job.passes[0].demands.push_back(root);
  EXPECT_EQ(named("headstock root"), 1);
}

// A step that fails says where: the unknown with the largest entry, in the words of the bench.
TEST_F(JudgeAfter, WhatDoesNotComeToRestIsSoughtOnTheNeck)
{
  const solver::Space &space = bench->model.space;
  std::vector<double> residual(bench->model.n_unknowns(), 1e-3);
  unsigned node = 0;
  for (unsigned n = 0; n < space.n_nodes; ++n)
    if (space.position[n][0] > space.position[node][0])
      node = n;
  residual[3 * node + 2] = -5;
  const std::string place = solver::place_of_largest(space, residual);
  EXPECT_THAT(place, HasSubstr(cases::both_lengths(space.position[node][0]) + " from the nut"));
  residual[3 * node] = std::nan("");
  residual[bench->model.tip_dof()] = 7;
  EXPECT_EQ(solver::place_of_largest(space, residual), place);
  residual[3 * node] = 0;
  EXPECT_EQ(solver::place_of_largest(space, residual), "in the tipping of the body");
  EXPECT_EQ(solver::counted({"cradle", "bass cord", "cradle"}), "bass cord, cradle (at 2 places)");
}

// Air by the hour: two weeks are followed in full, longer is not, and both plan and simulation say
// so. The months of the room have no swing within the day.
TEST(LeftOutOfTheAir, SwingsWithinTheDayInLongPhasesAreSaid)
{
  cases::Case c = the_case("white PVA");
  cases::Phase play = c.phases.back();
  play.name = "on tour";
  play.kind = cases::PhaseKind::play;
  for (unsigned hour = 0; hour <= 24; ++hour)
    play.climate.points.push_back({3600. * hour, celsius + 20 + hour % 2, 0.4});
  play.climate.period = 86400;
  play.duration = 14 * 86400;
  c.phases.push_back(play);
  EXPECT_TRUE(solver::left_out_of_the_air(c).empty());
  c.phases.back().duration = 20 * 86400;
  const auto said = solver::left_out_of_the_air(c);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_THAT(said[0], HasSubstr("\"on tour\" changes by the hour"));
  for (cases::ClimatePoint &point : c.phases.back().climate.points)
    point.time *= 30; // days
  EXPECT_TRUE(solver::left_out_of_the_air(c).empty());
}
