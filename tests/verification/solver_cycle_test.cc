// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Elastic wood whose stiffness falls with temperature: strain = S(T):stress in total form, so no
// path of heat and load may leave anything behind or make energy.
namespace overbend::tests
{
namespace
{
Beam make_beam()
{
  mesh::LayeredBeam shape;
  shape.length = 0.2;
  shape.width = 0.03;
  shape.cells_along = 8;
  shape.shaft_depth = 0.012;
  materials::Wood board = elastic_maple(), shaft = elastic_maple();
  for (materials::Wood *wood : {&board, &shaft}) {
    wood->drop_along = 0.0015;
    wood->drop_across = {0.2, 0.35, 0.38};
    wood->drop_shear = 0.25;
  }
  board.expansion = {5e-6, 3e-5, 4e-5};
  shaft.expansion = {3e-6, 2e-5, 3e-5};
  return {shape, {board, shaft, elastic_glue(300e6)}};
}

double largest_change(const std::vector<double> &a, const std::vector<double> &b)
{
  double largest = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    largest = std::max(largest, std::abs(a[i] - b[i]));
  return largest;
}
} // namespace

TEST(ThermalCycle, UnderLoadItReturnsExactly)
{
  const Beam beam = make_beam();
  TimeRun run(beam);
  run.mechanics.tolerance = 1e-13;
  run.load = beam.end_moments(5);
  run.step(293.15, 0);
  const auto before = run.state.displacement;
  run.steps(323.15, 600, 3);
  const double warm = beam.bow(run.state.displacement) - beam.bow(before);
  run.steps(293.15, 600, 5);
  const double left = largest_change(run.state.displacement, before);
  report("Heating and cooling under a load", "what is left over what heat added",
         "S(T) in total form", 0, left / std::abs(warm), 1e-9);
  EXPECT_GT(std::abs(warm), 1e-3 * std::abs(beam.bow(before)));
  EXPECT_LE(left, 1e-9 * std::abs(warm));
}

// Clamped cold, heated, released hot, cooled: the rate form would keep a set here.
TEST(ThermalCycle, ClampedColdAndReleasedHotNothingIsKept)
{
  const Beam beam = make_beam();
  TimeRun run(beam);
  run.mechanics.tolerance = 1e-13;
  run.springs.push_back(beam.press(1e-3));
  run.step(293.15, 0);
  const double bow = beam.bow(run.state.displacement);
  run.steps(323.15, 600, 3);
  run.springs.pop_back();
  run.step(323.15, 0);
  run.steps(293.15, 600, 2);
  const double left = largest_change(run.state.displacement, beam.no_load());
  report("Clamped cold, released hot", "what is left over the clamped bow", "S(T) in total form", 0,
         left / bow, 1e-9);
  EXPECT_LE(left, 1e-9 * bow);
}

// Work of the clamp around a closed path: pressed and let back in steps while heat comes and goes.
TEST(ThermalCycle, ClosedPathOfClampAndHeatMakesNoWork)
{
  const Beam beam = make_beam();
  TimeRun run(beam);
  run.mechanics.tolerance = 1e-13;
  run.springs.push_back(beam.press(0));
  solver::Spring &press = run.springs.back();
  const auto force = [&] { return -solver::force(press, run.state.displacement); };
  const auto round = [&](double hot) {
    // Pressed warm, let go warm, at one temperature all along.
    run.steps(hot, 60, 1);
    const double start = force(), offset = press.offset;
    double work = 0, before = start;
    for (const double share : {0.5, 1., 0.3, 0.}) {
      const double moved = offset + 1e-3 * share - press.offset;
      press.offset = offset + 1e-3 * share;
      run.step(hot, 60);
      work += moved * (before + force()) / 2;
      before = force();
    }
    return std::array<double, 2>{work, before - start};
  };
  for (const double temperature : {323.15, 293.15}) {
    const auto [work, change] = round(temperature);
    const double scale = 1e-3 * 50;
    report("Clamp in and out at " + std::to_string(int(temperature - 273)) + " degC",
           "work over its largest value", "elastic body", 0, work / scale, 1e-9);
    EXPECT_NEAR(work, 0, 1e-9 * scale);
    EXPECT_NEAR(change, 0, 1e-7);
  }
}
} // namespace overbend::tests
