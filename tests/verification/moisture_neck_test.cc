// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"
#include "solver/plan/bench_heat.h"
#include "solver/report/plan_report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>

// What must be more than what, on a coarse whole neck. The sizes are the model's; the order is the
// claim.
namespace overbend::tests
{
namespace
{
constexpr double day = 86400;

struct Stay
{
  double temperature = 294.15, moisture = 0.09;
  bool strings = true;
  double duration = 20 * day;
};

// How far the centre bow goes on by itself while the neck stays so, m: from just after it was
// brought there to the end.
double goes_on(GuardNeck &neck, const Stay &stay)
{
  cases::Phase phase;
  phase.kind = cases::PhaseKind::rest;
  phase.name = "stay";
  phase.duration = stay.duration;
  phase.air = neck.c.room;
  phase.air.temperature = stay.temperature;
  phase.air.humidity = materials::rest_humidity(stay.temperature, stay.moisture);
  phase.strings = stay.strings;
  const std::vector<double> T(neck.work.model.space.n_nodes, stay.temperature),
      m(T.size(), stay.moisture);
  solver::ThermalHistory heat;
  solver::MoistureHistory moisture;
  for (const double time : {0., stay.duration}) {
    heat.add({time, T, {}, 0});
    moisture.add(time, m);
  }
  const auto history = neck.from_unstressed({phase}, heat, moisture);
  return history.phases[0].reading.bow - history.phases[0].reading_at_start.bow;
}

// Bow (m) and mean moisture at the end of an hour's heat without a clamp, of a neck that came in
// dry, after it was conditioned in the room for a time.
std::array<double, 2> heated_after(double conditioned)
{
  GuardNeck neck(guard_case("[moisture]\ncontent = \"5 %\"\n"));
  cases::Phase phase = neck.c.phases.front();
  phase.cradle = phase.cords = phase.block = false;
  phase.pull = {};
  std::vector<cases::Phase> phases;
  if (conditioned > 0) {
    phase.kind = cases::PhaseKind::condition;
    phase.name = "condition";
    phase.duration = conditioned;
    phases.push_back(phase);
  }
  phase.kind = cases::PhaseKind::warm_free;
  phase.name = "warm free";
  phase.duration = 3600;
  phase.heater = true;
  phase.bar_temperature = 333.15;
  phases.push_back(phase);
  const auto heat = solver::heat_of(neck.work, phases);
  const auto moisture = solver::moisture_of(neck.work, phases, heat);
  const auto history = neck.from_unstressed(phases, heat, moisture);
  double mean = 0;
  for (const double m : moisture.all().back().moisture)
    mean += m / neck.work.model.space.n_nodes;
  return {history.phases.back().reading.bow, mean};
}

double goes_on_with(const std::string &set, const Stay &stay)
{
  GuardNeck neck(guard_case("[strings]\nset = \"" + set + "\"\n"));
  return goes_on(neck, stay);
}
} // namespace

TEST(Relapse, GrowsWithTheStringsAndOnAHotStage)
{
  Stay slack, warm;
  slack.strings = false;
  warm.temperature = 308.15;
  GuardNeck light(guard_case("[strings]\nset = \"electric 9-42\"\n"));
  const double none = std::abs(goes_on(light, slack)), nine = goes_on(light, {}),
               hot = goes_on(light, warm);
  const double eleven = goes_on_with("electric 11-49", {});
  std::cout << "bow gone on in 20 days, mm: slack " << 1e3 * none << ", 9-42 " << 1e3 * nine
            << ", 11-49 " << 1e3 * eleven << ", 9-42 on a stage of 35 degC " << 1e3 * hot << "\n";
  EXPECT_LT(none, nine);
  EXPECT_LT(nine, eleven);
  EXPECT_LT(eleven, hot);
}

TEST(Relapse, ADampNeckMovesMore)
{
  GuardNeck neck;
  Stay dry, damp;
  dry.moisture = 0.06;
  damp.moisture = 0.18;
  const double a = goes_on(neck, dry), b = goes_on(neck, damp);
  std::cout << "bow gone on in 20 days, mm: at 6 % " << 1e3 * a << ", at 18 % " << 1e3 * b << "\n";
  EXPECT_LT(a, b);
}

TEST(DryNeck, ConditionedFirstIsNotWhereHeatAtOnceFindsIt)
{
  const auto at_once = heated_after(0), first = heated_after(21 * day);
  std::cout << "after an hour's heat, free: at once " << 1e3 * at_once[0] << " mm, "
            << 100 * at_once[1] << " %; conditioned for three weeks first " << 1e3 * first[0]
            << " mm, " << 100 * first[1] << " %\n";
  EXPECT_GT(first[1], at_once[1] + 0.005);
  EXPECT_GT(std::abs(first[0] - at_once[0]), 0.02e-3); // the tolerance of a target
}

// Single-action rod set to its force in the neck as built; then the wood swells or shrinks along
// its curve at once. Damp tightens, dry slackens (common practice of the trade).
TEST(CompressionRod, TightensInDampAndSlackensInDryWood)
{
  GuardNeck neck;
  const auto &model = neck.work.model;
  const double built = model.piece[1].moisture;
  const std::vector<double> T(model.space.n_nodes, materials::reference_temperature);
  const solver::MechanicsState start = solver::unstressed(model);
  solver::BenchSetup setup;
  setup.rod = cases::RodState::set;
  solver::BenchOffsets offsets;
  neck.work.bench.rod_becomes_spring(start.displacement, 0, offsets);
  const auto pull_at = [&](double moisture) {
    const std::vector<double> m(T.size(), moisture);
    neck.work.mechanics.begin(start, solver::StepClimate{T, T, m, m, m, {}, {}}, 0);
    const auto springs = neck.work.bench.springs(setup, offsets, 0);
    std::vector<double> u = start.displacement;
    neck.work.mechanics.equilibrate(springs, neck.work.bench.load(setup), u);
    return neck.work.bench.forces(springs, u).rod;
  };
  const double dry = pull_at(built - 0.03), now = pull_at(built), damp = pull_at(built + 0.03);
  std::cout << "rod, N: dry " << dry << ", as built " << now << ", damp " << damp << "\n";
  ASSERT_GT(now, 0);
  EXPECT_LT(dry, now);
  EXPECT_GT(damp, now);
}

// Moisture laid on as a straight line through the depth, z in m: 10 % at the board's line, 1 % less
// a millimetre further down. So a reading tells its own depth.
TEST(MoistureReadings, AreThoseOfTheirPlacesAndStandInTheTable)
{
  GuardNeck neck;
  const auto &position = neck.work.model.space.position;
  const std::vector<double> T(position.size(), 294.15);
  std::vector<double> m;
  for (const auto &place : position)
    m.push_back(0.10 + 10 * place[2]);
  solver::ThermalHistory heat;
  solver::MoistureHistory moisture;
  for (const double time : {0., day}) {
    heat.add({time, T, {}, 0});
    moisture.add(time, m);
  }
  const solver::HeatReader reader(neck.work, heat, &moisture);
  const auto wet = reader.at(day / 2).moisture;
  ASSERT_TRUE(wet.has_value());
  EXPECT_NEAR(wet->probe, 0.10 + 10 * neck.c.probe.height, 1e-4);
  EXPECT_NEAR(0.10 - wet->skin, 2 * (0.10 - wet->core), 0.002);
  EXPECT_LT(wet->skin, wet->core - 0.05);
  EXPECT_FALSE(solver::HeatReader(neck.work, heat).at(day / 2).moisture.has_value());

  solver::History history;
  history.steps.resize(1);
  cases::Case c = neck.c;
  c.phases.resize(1);
  std::vector<solver::BenchState> states(1);
  states[0].shape = neck.work.lines.shape(std::vector<double>(neck.work.model.n_unknowns(), 0.));
  const auto table =
      solver::readings_table(c, history, states, {}, solver::heat_at_steps(history, reader));
  const std::string csv = solver::to_csv(table, {});
  EXPECT_NE(csv.find("moisture at the probe [%]"), std::string::npos);
  EXPECT_NEAR(*table.rows.at(0).values.back(), wet->core, 1e-12);
}
} // namespace overbend::tests
