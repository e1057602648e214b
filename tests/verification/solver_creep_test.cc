// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Creep of the wood in the assembled system: a bar in tension and a beam in bending.
namespace overbend::tests
{
namespace
{
constexpr double length = 0.1, side = 0.02;

Beam make_bar(const materials::Wood &wood)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.width = side;
  shape.board_thickness = 0;
  shape.shaft_depth = side;
  shape.cells_along = 2;
  shape.cells_shaft = 1;
  return {shape, {wood, wood, {}}};
}

// The bar's left end held along x, its right end too if `right` is given.
std::vector<std::pair<unsigned, double>>
ends_held(const Beam &bar, const std::function<double(const solver::Vec3 &)> *right = nullptr)
{
  std::vector<std::pair<unsigned, double>> held{{3 * bar.node(0, 0, 0) + 1, 0},
                                                {3 * bar.node(0, 0, 0) + 2, 0},
                                                {3 * bar.node(length, 0, 0) + 1, 0},
                                                {3 * bar.node(length, 0, 0) + 2, 0},
                                                {3 * bar.node(0, 0, -side) + 1, 0}};
  for (unsigned n = 0; n < bar.model.space.n_nodes; ++n) {
    const solver::Vec3 &p = bar.model.space.position[n];
    if (p[0] < 1e-9)
      held.emplace_back(3 * n, 0);
    if (right != nullptr && p[0] > length - 1e-9)
      held.emplace_back(3 * n, (*right)(p));
  }
  return held;
}

std::vector<double> pull(const Beam &bar, double stress)
{
  return traction_load(bar.model, mesh::Face::body, [=](const solver::Vec3 &) -> solver::Vec3 {
    return {stress, 0, 0};
  });
}

double strain(const Beam &bar, const TimeRun &run)
{
  return run.state.displacement[3 * bar.node(length, 0, 0)] / length;
}

// Wood as in the worked values for a chain: J0 1/12000 MPa, g 0.05 and 0.08, tau 1 h and 24 h.
materials::Wood chain_wood(double irrecoverable = 0)
{
  return with_chain(elastic(12e9, 1e9, 1e9, 0.3), {3600, 86400}, {0.05, 0.08}, irrecoverable);
}

// Stress of a bar that is strained and warmed over a day in n equal steps.
double stress_of_warm_pull(const Beam &bar, unsigned n)
{
  const double day = 86400;
  TimeRun run(bar.model, ends_held(bar));
  run.mechanics.tolerance = 1e-12;
  for (unsigned i = 1; i <= n; ++i) {
    const double t = double(i) / n;
    const std::function<double(const solver::Vec3 &)> to = [&](const solver::Vec3 &) {
      return length * 1e-3 * std::sin(4 * t);
    };
    run.mechanics.hold(ends_held(bar, &to));
    run.step(293.15 + 28 * std::pow(std::sin(3 * t), 2), day / n);
  }
  return run.state.wood[0].stress[0];
}
} // namespace

// Boltzmann superposition over a Kelvin chain: instantaneous load of 10 MPa, off after 24 h.
TEST(Creep, ChainInABarCreepsAndRecovers)
{
  const Beam bar = make_bar(chain_wood());
  TimeRun run(bar.model, ends_held(bar));
  run.mechanics.tolerance = 1e-12;
  const auto check = [&](const std::string &when, double expected) {
    report("Creep chain in a bar, 10 MPa", "strain " + when, "Boltzmann superposition", expected,
           strain(bar, run), 2e-6 * 8.4e-4);
    EXPECT_NEAR(strain(bar, run), expected, 2e-6 * 8.4e-4) << when;
  };
  run.load = pull(bar, 10e6);
  run.step(293.15, 0);
  check("at once", 8.33333e-4);
  run.steps(293.15, 3600, 3);
  check("at 1 h", 8.62392e-4);
  run.steps(293.15, 82800, 5);
  check("at 24 h", 9.17141e-4);
  run.load = bar.no_load();
  run.step(293.15, 0);
  check("unloaded", 8.38080e-5);
  run.steps(293.15, 3600, 2);
  check("1 h later", 5.57499e-5);
  run.steps(293.15, 82800, 2);
  check("24 h later", 1.55029e-5);
}

// Reduced time of Morland & Lee 1960 (from memory) for E_a 100 kJ/mol: 20 to 48 degC in 1800 s,
// 7200 s there, back in 3600 s, 43200 s at 20 degC. Fine steps on the ramps: the tolerance is
// theirs.
TEST(Creep, ChainInABarFollowsTheReducedTimeOfAHeating)
{
  const Beam bar = make_bar(chain_wood());
  TimeRun run(bar.model, ends_held(bar));
  run.mechanics.tolerance = 1e-12;
  run.load = pull(bar, 10e6);
  run.step(293.15, 0);
  const auto check = [&](const std::string &when, double expected) {
    report("Creep chain in a heated bar", "strain " + when, "Morland & Lee 1960 (from memory)",
           expected, strain(bar, run), 1e-5 * expected);
    EXPECT_NEAR(strain(bar, run) / expected, 1, 1e-5) << when;
  };
  run.steps(321.15, 1800, 20);
  check("after the ramp", 8.87469e-4);
  run.steps(321.15, 7200, 2);
  check("after holding", 9.38929e-4);
  run.steps(293.15, 3600, 20);
  check("after cooling", 9.39874e-4);
  run.steps(293.15, 43200, 2);
  check("in the end", 9.40580e-4);
}

// The law at a point, stepped on its own, against the bar: also with the irrecoverable part.
TEST(Creep, BarFollowsTheLawAtAPoint)
{
  materials::Wood wood = chain_wood(0.5);
  wood.drop_along = 0.0015;
  wood.expansion = {4e-6, 3e-5, 4e-5};
  const Beam bar = make_bar(wood);
  const materials::WoodLaw law(wood);
  TimeRun run(bar.model, ends_held(bar));
  run.mechanics.tolerance = 1e-12;
  materials::WoodState point;
  double worst = 0, T = 293.15;
  for (unsigned i = 1; i <= 12; ++i) {
    const double stress = 1e7 * std::sin(0.4 * i), T1 = 293.15 + 25 * std::sin(0.25 * i);
    const auto step = law.prepare(T, T1, 1800, 0.12);
    const materials::Vector6 sigma{stress};
    const auto active = law.active(point, step, sigma);
    const double expected =
        (law.tangent(step, active) * sigma)[0] + law.history(point, step, active)[0];
    law.finish(point, step, active, sigma);
    run.load = pull(bar, stress);
    run.step(T1, 1800);
    worst = std::max(worst, std::abs(strain(bar, run) - expected) / 1e-3);
    T = T1;
  }
  report("Bar against the law at a point, changing load and heat", "strain over 1e-3",
         "the same law", 0, worst, 1e-9);
  EXPECT_LE(worst, 1e-9);
}

// Boltzmann: each element strains by g J0 rate (t - tau (1 - exp(-t/tau))).
TEST(Creep, OneLongStepIsExactForStressLinearInTime)
{
  const Beam bar = make_bar(chain_wood());
  TimeRun run(bar.model, ends_held(bar));
  run.mechanics.tolerance = 1e-12;
  const double t = 3 * 3600, stress = 10e6; // a step longer than the shorter time
  run.load = pull(bar, stress);
  run.step(293.15, t);
  double expected = stress / 12e9;
  for (const auto &[g, tau] : {std::pair{0.05, 3600.}, std::pair{0.08, 86400.}})
    expected += g / 12e9 * stress / t * (t + tau * std::expm1(-t / tau));
  report("Creep chain, linear stress, one step of 3 h", "strain", "Boltzmann superposition",
         expected, strain(bar, run), 1e-9 * expected);
  EXPECT_NEAR(strain(bar, run) / expected, 1, 1e-9);
}

// The one-sided law (an estimate): half of the creep of each element at unloading never comes back.
TEST(Creep, IrrecoverableShareStaysAfterAnyRest)
{
  const Beam bar = make_bar(chain_wood(0.5));
  TimeRun run(bar.model, ends_held(bar));
  run.mechanics.tolerance = 1e-12;
  run.load = pull(bar, 10e6);
  run.step(293.15, 0);
  run.steps(293.15, 86400, 4);
  const double creep = strain(bar, run) - 10e6 / 12e9;
  run.load = bar.no_load();
  run.step(293.15, 0);
  run.steps(293.15, 100 * 86400., 10);
  report("Irrecoverable creep in a bar", "share of the creep left after 100 days", "one-sided law",
         0.5, strain(bar, run) / creep, 1e-6);
  EXPECT_NEAR(strain(bar, run) / creep, 0.5, 1e-6);
}

TEST(Creep, StressIsOfSecondOrderInTime)
{
  materials::Wood wood = chain_wood();
  wood.drop_along = 0.0015;
  wood.expansion = {4e-6, 3e-5, 4e-5};
  const Beam bar = make_bar(wood);
  const double reference = stress_of_warm_pull(bar, 640);
  const double coarse = std::abs(stress_of_warm_pull(bar, 20) - reference);
  const double fine = std::abs(stress_of_warm_pull(bar, 40) - reference);
  const double order = std::log2(coarse / fine);
  report("Bar under changing strain and temperature", "order in time of the stress",
         "step exact for stress linear in reduced time", 2, order, 0.1);
  EXPECT_GE(order, 1.9);
  EXPECT_LE(order, 2.6);
}

// Clamp, hold, release of the standard linear solid: E0 12000, E1 100000 MPa, tau_c 7200 s, surface
// strain 1e-3 in pure bending, 2 h.
TEST(Creep, BentBeamKeepsTheSetOfTheStandardLinearSolid)
{
  const materials::Wood wood = with_chain(elastic(12e9, 1e9, 1e9), {7200}, {0.12});
  const Beam bar = make_bar(wood);
  const double curvature = 1e-3 / (side / 2);
  const std::function<double(const solver::Vec3 &)> bent = [&](const solver::Vec3 &p) {
    return -curvature * length * (p[2] + side / 2);
  };
  TimeRun run(bar.model, ends_held(bar, &bent));
  run.mechanics.tolerance = 1e-12;
  run.step(293.15, 0);
  const double at_once = run.state.wood[0].stress[0];
  run.steps(293.15, 7200, 60);
  const double stress = 12.0 * run.state.wood[0].stress[0] / at_once; // MPa at the surface
  report("Clamp, hold, release in bending", "surface stress after 2 h, MPa",
         "standard linear solid", 11.133788, stress, 0.0011);
  EXPECT_NEAR(stress / 11.133788, 1, 1e-4);

  run.mechanics.hold(ends_held(bar));
  const auto set = [&] {
    const auto &u = run.state.displacement;
    return (u[3 * bar.node(length, 0, -side)] - u[3 * bar.node(length, 0, 0)]) / length / 2;
  };
  run.step(293.15, 0);
  report("Clamp, hold, release in bending", "set of the surface strain", "standard linear solid",
         7.21843e-5, set(), 7.2e-8);
  EXPECT_NEAR(set() / 7.21843e-5, 1, 1e-3);
  run.steps(293.15, 7200, 3);
  report("Clamp, hold, release in bending", "set 2 h after release", "standard linear solid",
         2.65551e-5, set(), 2.7e-8);
  EXPECT_NEAR(set() / 2.65551e-5, 1, 1e-3);
}
} // namespace overbend::tests
