// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Unit histories: increments about a base run with its states and steps, against the difference of
// two full runs. Exact while contact holds and no creep element changes its state.
namespace overbend::tests
{
namespace
{
constexpr double stiffness = 5e4, take_up[2] = {2e-3, 2.4e-3}; // bass, treble
constexpr double slack = -1;                                   // m, for released cords

Beam make_beam(double irrecoverable)
{
  mesh::LayeredBeam shape;
  shape.length = 0.46;
  shape.cells_along = 12;
  shape.end_cell = 0.01;
  materials::Wood wood =
      with_chain(elastic_maple(), {400, 4e4, 4e6}, {0.03, 0.05, 0.1}, irrecoverable);
  wood.expansion = {4e-6, 31e-6, 40e-6};
  wood.drop_along = 0.0015;
  return {shape, {wood, wood, thermoplastic_glue(), 1e-4}};
}

// One-sided cords at the two edges of the middle; their places among the springs are 2 and 3.
void add_cords(const Beam &beam, const std::array<double, 2> &more, TimeRun &run)
{
  for (unsigned side = 0; side < 2; ++side) {
    solver::Spring cord;
    cord.name = side == 0 ? "bass" : "treble";
    const double y = (side == 0 ? -0.5 : 0.5) * beam.shape.width;
    cord.row = {
        {3 * beam.node(beam.shape.length / 2, y, beam.shape.board_thickness, true) + 2, 1.}};
    cord.stiffness = stiffness;
    cord.offset = take_up[side] + more[side];
    cord.one_sided = true;
    run.springs.push_back(cord);
  }
}

struct Step
{
  double temperature, dt;
  bool released;
};

// Cold pull, heating, holding, cooling, release, rest.
std::vector<Step> schedule()
{
  std::vector<Step> steps{{293.15, 0, false}, {293.15, 60, false}};
  for (unsigned i = 1; i <= 6; ++i)
    steps.push_back({293.15 + 28. * i / 6, 100, false});
  steps.insert(steps.end(), {{321.15, 600, false}, {321.15, 3000, false}});
  for (unsigned i = 1; i <= 3; ++i)
    steps.push_back({321.15 - 28. * i / 3, 200, false});
  steps.insert(steps.end(), {{293.15, 0, true}, {293.15, 86400, true}});
  return steps;
}

void make_exact(TimeRun &run)
{
  run.mechanics.tolerance = 1e-13;
  run.mechanics.unit_tolerance = 1e-12;
}

void release(TimeRun &run)
{
  for (solver::Spring &spring : run.springs)
    if (spring.one_sided)
      spring.offset = slack;
}

std::vector<solver::MechanicsState> full_run(const Beam &beam, const std::array<double, 2> &more)
{
  TimeRun run(beam);
  make_exact(run);
  add_cords(beam, more, run);
  std::vector<solver::MechanicsState> states;
  for (const Step &step : schedule()) {
    if (step.released)
      release(run);
    run.step(step.temperature, step.dt);
    states.push_back(run.state);
  }
  return states;
}

// The base run and, with it, one unit history for each entry of `more` (take-up of both cords);
// the units' states at the end of each step.
std::vector<std::vector<solver::MechanicsState>>
units_about(const Beam &beam, const std::vector<std::array<double, 2>> &more)
{
  TimeRun base(beam);
  make_exact(base);
  add_cords(beam, {0, 0}, base);
  std::vector<solver::MechanicsState> units(more.size(), solver::unstressed(beam.model));
  std::vector<std::vector<solver::MechanicsState>> history;
  for (const Step &step : schedule()) {
    if (step.released)
      release(base);
    base.step(step.temperature, step.dt);
    std::vector<std::vector<double>> loads;
    for (std::size_t k = 0; k < more.size(); ++k) {
      loads.push_back(base.mechanics.unit_load(units[k]));
      for (unsigned side = 0; side < 2; ++side)
        if (base.mechanics.closed_springs()[2 + side])
          solver::add_times(base.springs[2 + side].row, -stiffness * more[k][side], loads[k]);
    }
    base.mechanics.respond(loads);
    for (std::size_t k = 0; k < more.size(); ++k)
      base.mechanics.finish(units[k], loads[k], true);
    history.push_back(units);
  }
  return history;
}

// Largest |unit - (after - before)| over the largest |after - before|, displacement and stress.
double difference(const solver::MechanicsState &unit, solver::MechanicsState after,
                  const solver::MechanicsState &before)
{
  solver::add_times(after, -1, before);
  solver::MechanicsState rest = after;
  solver::add_times(rest, -1, unit);
  double error = 0, size = 0, stress_error = 0, stress_size = 0;
  for (std::size_t i = 0; i < rest.displacement.size(); ++i) {
    error = std::max(error, std::abs(rest.displacement[i]));
    size = std::max(size, std::abs(after.displacement[i]));
  }
  for (std::size_t p = 0; p < rest.wood.size(); ++p) {
    stress_error = std::max(stress_error, std::abs(rest.wood[p].stress[0]));
    stress_size = std::max(stress_size, std::abs(after.wood[p].stress[0]));
  }
  return std::max(error / size, stress_error / stress_size);
}
} // namespace

TEST(UnitHistory, IsTheDifferenceOfTwoFullRuns)
{
  const Beam beam = make_beam(0);
  const std::vector<std::array<double, 2>> more{{2e-4, 0}, {0, 3e-4}};
  const auto units = units_about(beam, more);
  const auto base = full_run(beam, {0, 0});
  for (std::size_t k = 0; k < more.size(); ++k) {
    const auto moved = full_run(beam, more[k]);
    double worst = 0;
    for (std::size_t s = 0; s < base.size(); ++s)
      worst = std::max(worst, difference(units[s][k], moved[s], base[s]));
    report(k == 0 ? "Unit history, bass cord" : "Unit history, treble cord",
           "worst step: difference from two full runs, relative", "linearity", 0, worst, 1e-8);
    EXPECT_LE(worst, 1e-8);
    // Something is left of it after release.
    EXPECT_GT(std::abs(beam.bow(units.back()[k].displacement)), 1e-6);
  }
}

// One unit alone, far smaller or larger than the base, is as exact as in a block.
TEST(UnitHistory, DoesNotDependOnItsSizeOrCompany)
{
  const Beam beam = make_beam(0);
  const auto two = units_about(beam, {{2e-4, 0}, {0, 3e-4}});
  for (const double factor : {1e-6, 1e6}) {
    const auto alone = units_about(beam, {{2e-4 * factor, 0}});
    auto scaled = solver::unstressed(beam.model);
    solver::add_times(scaled, 1 / factor, alone.back()[0]);
    const double error = difference(scaled, two.back()[0], solver::unstressed(beam.model));
    report("Unit history alone, scaled by " + std::to_string(factor), "relative difference",
           "linearity", 0, error, 1e-8);
    EXPECT_LE(error, 1e-8);
  }
}

// With the irrecoverable part the base's states are frozen, so a unit is close but not exact.
TEST(UnitHistory, IsCloseWithIrrecoverableCreep)
{
  const Beam beam = make_beam(0.5);
  const auto units = units_about(beam, {{2e-4, 2e-4}});
  const auto base = full_run(beam, {0, 0}), moved = full_run(beam, {2e-4, 2e-4});
  const double expected = beam.bow(moved.back().displacement) - beam.bow(base.back().displacement);
  const double unit = beam.bow(units.back()[0].displacement);
  report("Unit history with irrecoverable creep", "bow after release, mm", "two full runs",
         1e3 * expected, 1e3 * unit, 0.02e3 * std::abs(expected));
  EXPECT_NEAR(unit / expected, 1, 0.02);
}
} // namespace overbend::tests
