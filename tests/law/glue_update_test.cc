// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/glue_law.h"
#include "tests/law/point.h"

#include <random>

namespace overbend::tests
{
namespace
{
using materials::GlueLaw;
using materials::GlueState;
using materials::Vector2;

constexpr double thickness = 0.1e-3;

double stored_energy(const materials::Glue &glue, const GlueState &state)
{
  double energy = 0;
  for (unsigned a = 0; a < 2; ++a) {
    energy += 0.5 * glue.plateau / thickness * state.slip[a] * state.slip[a];
    for (std::size_t k = 0; k < glue.branch_modulus.size(); ++k)
      energy += 0.5 * state.branch[k][a] * state.branch[k][a] * thickness / glue.branch_modulus[k];
  }
  return energy;
}

// Work of 400 steps that move the slip in a straight line, by the trapezoidal rule.
double work_of_a_leg(const GlueLaw &law, GlueState &state, const Vector2 &to,
                     const materials::GlueStep &step)
{
  const Vector2 from = state.slip;
  double work = 0;
  for (unsigned m = 1; m <= 400; ++m) {
    const Vector2 traction0 = law.traction(state), slip0 = state.slip;
    const Vector2 slip1 = {from[0] + (to[0] - from[0]) * m / 400,
                           from[1] + (to[1] - from[1]) * m / 400};
    law.finish(state, step, slip1);
    const Vector2 traction1 = law.traction(state);
    for (unsigned a = 0; a < 2; ++a)
      work += 0.5 * (traction0[a] + traction1[a]) * (slip1[a] - slip0[a]);
  }
  return work;
}
} // namespace

// Source: definition of a tangent: the traction of the state after the step against the linear
// form.
TEST(GlueLaw, TangentIsTheDerivativeOfTheUpdateByTaylorRemainder)
{
  std::mt19937 random(4);
  std::normal_distribution<double> slips(0, 1e-6);
  double worst = 0;
  for (const materials::Glue &glue : materials::tables().glues) {
    const GlueLaw law(glue, thickness, 0.5);
    GlueState state;
    for (const double dt : {0., 1., 60., 3600.}) {
      const auto step = law.prepare(kelvin(30), kelvin(50), dt);
      const Vector2 slip1 = {slips(random), slips(random)};
      GlueState base = state, moved = state;
      law.finish(base, step, slip1);
      for (const double h : {1e-6, 1e-8}) {
        law.finish(moved = state, step, {slip1[0] + h, slip1[1] - 2 * h});
        const Vector2 a = law.traction(base), b = law.traction(moved);
        worst = std::max({worst, std::abs((b[0] - a[0]) / (step.stiffness * h) - 1),
                          std::abs((b[1] - a[1]) / (step.stiffness * -2 * h) - 1)});
      }
      EXPECT_NEAR(step.stiffness * slip1[1] + law.history(state, step)[1], law.traction(base)[1],
                  1e-9 * std::abs(law.traction(base)[1]) + 1e-9);
      state = base;
    }
  }
  expect("Tangent of the glue law", "largest relative Taylor remainder", "definition", 0, worst,
         1e-8);
}

// Source: second law: work on random slip paths, the temperature changing, at least what is stored.
TEST(GlueLaw, DissipationIsNeverNegative)
{
  std::mt19937 random(3);
  std::normal_distribution<double> slips(0, 1e-6);
  std::uniform_real_distribution<double> degrees(20, 65), decades(-1, 4);
  double least = 0, total = 0;
  for (const materials::Glue &glue : materials::tables().glues) {
    const GlueLaw law(glue, thickness, 0.5);
    GlueState state;
    for (unsigned n = 0; n < 50; ++n) {
      const double T0 = kelvin(degrees(random)), T1 = kelvin(degrees(random));
      const auto step = law.prepare(T0, T1, std::pow(10, decades(random)) / 400);
      const double before = stored_energy(glue, state);
      const double work = work_of_a_leg(law, state, {slips(random), slips(random)}, step);
      const double dissipated = work - (stored_energy(glue, state) - before);
      least = std::min(least, dissipated);
      total += dissipated;
    }
  }
  EXPECT_GT(total, 0);
  expect("Dissipation of the glue law, 450 random legs", "least, share of the mean", "second law",
         0, least * 450 / total, 1e-6);
}
} // namespace overbend::tests
