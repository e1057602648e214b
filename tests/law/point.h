// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/wood_law.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

// Helpers of the tests of the laws at one point.
namespace overbend::tests
{
constexpr double MPa = 1e6;
constexpr double hour = 3600, day = 86400;

// Adds a row to the table of checks and expects the value to lie within the tolerance.
inline void expect(const std::string &what, const std::string &quantity, const std::string &source,
                   double expected, double got, double tolerance)
{
  report(what, quantity, source, expected, got, tolerance);
  EXPECT_NEAR(got, expected, tolerance) << what << ", " << quantity;
}

inline double kelvin(double celsius)
{
  return celsius + 273.15;
}

// Wood without coupling, alike in all directions, that keeps its modulus when it warms.
inline materials::Wood plain_wood(double modulus)
{
  materials::Wood wood;
  wood.name = "plain";
  wood.E_L = wood.E_R = wood.E_T = modulus;
  wood.G_RT = wood.G_LT = wood.G_LR = modulus / 2;
  wood.creep_ratio = {1, 1, 1, 1, 1, 1};
  wood.activation_energy = 100e3;
  return wood;
}

// A point under stress or strain along the grain only.
class Bar
{
public:
  explicit Bar(const materials::Wood &wood) : law(wood) {}

  // Moves to the end of a step with a stress along the grain; returns the strain.
  double stress(double value, double dt, double T0, double T1)
  {
    const auto step = law.prepare(T0, T1, dt, materials::reference_moisture);
    const materials::Vector6 stress1 = {value, 0, 0, 0, 0, 0};
    const auto active = law.active(state, step, stress1);
    const double strain =
        law.tangent(step, active).normal[0] * value + law.history(state, step, active)[0];
    law.finish(state, step, active, stress1);
    return strain;
  }

  // The same with a strain along the grain; returns the stress. The active set is found by trial.
  double strain(double value, double dt, double T0, double T1)
  {
    const auto step = law.prepare(T0, T1, dt, materials::reference_moisture);
    materials::Vector6 stress1 = state.stress;
    materials::ActiveElements active = law.active(state, step, stress1);
    for (unsigned trial = 0; trial < 20; ++trial) {
      stress1[0] =
          (value - law.history(state, step, active)[0]) / law.tangent(step, active).normal[0];
      const auto next = law.active(state, step, stress1);
      if (next == active)
        break;
      active = next;
    }
    law.finish(state, step, active, stress1);
    return stress1[0];
  }

  materials::WoodLaw law;
  materials::WoodState state;
};
} // namespace overbend::tests
