// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/law/point.h"

#include <random>

namespace overbend::tests
{
namespace
{
using materials::Compliance;
using materials::Vector6;
using materials::WoodLaw;
using materials::WoodState;

const materials::Wood &maple()
{
  return materials::tables().wood("sugar maple");
}

double dot(const Vector6 &a, const Vector6 &b)
{
  double sum = 0;
  for (unsigned k = 0; k < 6; ++k)
    sum += a[k] * b[k];
  return sum;
}

Vector6 random_stress(std::mt19937 &random)
{
  std::normal_distribution<double> along(0, 20 * MPa), across(0, 2 * MPa);
  return {along(random),  across(random), across(random),
          across(random), across(random), across(random)};
}

// The stress that a compliance turns into the strain given (Cramer's rule on the normal block).
Vector6 solve(const Compliance &s, const Vector6 &e)
{
  const double m[3][3] = {{s.normal[0], s.normal[3], s.normal[4]},
                          {s.normal[3], s.normal[1], s.normal[5]},
                          {s.normal[4], s.normal[5], s.normal[2]}};
  const auto determinant = [](const double a[3][3]) {
    return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
           a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
           a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
  };
  Vector6 stress{};
  for (unsigned column = 0; column < 3; ++column) {
    double replaced[3][3];
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        replaced[i][j] = j == column ? e[i] : m[i][j];
    stress[column] = determinant(replaced) / determinant(m);
  }
  for (unsigned k = 0; k < 3; ++k)
    stress[3 + k] = e[3 + k] / s.shear[k];
  return stress;
}

// A point that has been loaded at random for a while.
WoodState random_state(const WoodLaw &law, std::mt19937 &random)
{
  WoodState state;
  for (const double dt : {0., 600., 7200., 1e6}) {
    const auto step = law.prepare(kelvin(30), kelvin(45), dt, 0.08);
    const Vector6 stress1 = random_stress(random);
    law.finish(state, step, law.active(state, step, stress1), stress1);
  }
  return state;
}

// Strain from the state itself, the way the law is defined.
Vector6 total_strain(const WoodLaw &law, const WoodState &state, double temperature)
{
  const materials::Wood &wood = law.wood();
  Vector6 strain = law.prepare(temperature, temperature, 0, 0.08).elastic1 * state.stress;
  for (unsigned a = 0; a < 3; ++a)
    strain[a] += wood.expansion[a] * (temperature - materials::reference_temperature);
  for (unsigned i = 0; i < law.n_elements(); ++i)
    for (unsigned a = 0; a < 6; ++a)
      strain[a] += state.kelvin[i][a] + state.irrecoverable[i][a];
  return strain;
}
} // namespace

// Source: definition of a tangent: the remainder of the first Taylor polynomial.
TEST(WoodLaw, TangentIsTheDerivativeOfTheUpdateByTaylorRemainder)
{
  std::mt19937 random(1);
  const WoodLaw law(maple());
  double worst = 0;
  for (unsigned trial = 0; trial < 50; ++trial) {
    const WoodState start = random_state(law, random);
    const auto step = law.prepare(kelvin(40), kelvin(48), 300, 0.08);
    const Vector6 stress1 = random_stress(random), direction = random_stress(random);
    const auto active = law.active(start, step, stress1);
    WoodState base = start;
    law.finish(base, step, active, stress1);
    const Vector6 strain = total_strain(law, base, kelvin(48));
    const Vector6 slope = law.tangent(step, active) * direction;
    for (const double h : {1e-1, 1e-3}) {
      Vector6 moved = stress1;
      for (unsigned a = 0; a < 6; ++a)
        moved[a] += h * direction[a];
      WoodState other = start;
      law.finish(other, step, active, moved);
      const Vector6 strain_moved = total_strain(law, other, kelvin(48));
      for (unsigned a = 0; a < 6; ++a)
        worst = std::max(worst, std::abs(strain_moved[a] - strain[a] - h * slope[a]) /
                                    (h * std::abs(slope[a]) + 1e-9));
    }
    const Vector6 history = law.history(start, step, active);
    const Vector6 part = law.tangent(step, active) * stress1;
    for (unsigned a = 0; a < 6; ++a)
      EXPECT_NEAR(part[a] + history[a], strain[a], 1e-15 + 1e-12 * std::abs(strain[a]));
  }
  expect("Tangent of the wood law", "largest relative Taylor remainder", "definition", 0, worst,
         1e-8);
}

namespace
{
double stored_energy(const WoodLaw &law, const WoodState &state, double T)
{
  const auto now = law.prepare(T, T, 0, 0.08);
  double energy = 0.5 * dot(state.stress, now.elastic1 * state.stress);
  for (unsigned i = 0; i < law.n_elements(); ++i)
    energy += 0.5 * dot(state.kelvin[i], solve(now.creep1, state.kelvin[i])) /
              ((1 - law.wood().irrecoverable_share) * law.wood().creep_share[i]);
  return energy;
}

// Work of 50 isothermal steps that move the stress in a straight line, by the trapezoidal rule.
double work_of_a_leg(const WoodLaw &law, WoodState &state, const Vector6 &to, double T, double dt)
{
  const Vector6 from = state.stress;
  const auto step = law.prepare(T, T, dt, 0.08);
  double work = 0;
  for (unsigned n = 0; n < 50; ++n) {
    const Vector6 strain0 = total_strain(law, state, T), stress0 = state.stress;
    Vector6 stress1;
    for (unsigned a = 0; a < 6; ++a)
      stress1[a] = from[a] + (to[a] - from[a]) * (n + 1) / 50;
    law.finish(state, step, law.active(state, step, stress1), stress1);
    const Vector6 strain1 = total_strain(law, state, T);
    for (unsigned a = 0; a < 6; ++a)
      work += 0.5 * (stress0[a] + stress1[a]) * (strain1[a] - strain0[a]);
  }
  return work;
}
} // namespace

// Source: second law: dissipation = work - change of stored energy, along random paths.
TEST(WoodLaw, DissipationIsNeverNegative)
{
  std::mt19937 random(2);
  std::uniform_real_distribution<double> degrees(15, 60), decades(1, 7);
  const WoodLaw law(maple());
  double least = 0, total = 0;
  for (unsigned path = 0; path < 20; ++path) {
    WoodState state;
    for (unsigned leg = 0; leg < 20; ++leg) {
      const double T = kelvin(degrees(random));
      const double dt = std::pow(10, decades(random)) / 50;
      const double before = stored_energy(law, state, T);
      const double work = work_of_a_leg(law, state, random_stress(random), T, dt);
      const double dissipated = work - (stored_energy(law, state, T) - before);
      least = std::min(least, dissipated);
      total += dissipated;
    }
  }
  EXPECT_GT(total, 0);
  expect("Dissipation of the wood law, 400 random legs", "least, share of the mean", "second law",
         0, least / (total / 400), 1e-9);
}

// Source: statics: a body free to grow carries no stress.
TEST(WoodLaw, FreeHeatingGivesNoStress)
{
  for (const materials::Wood &wood : materials::tables().woods) {
    const WoodLaw law(wood);
    const WoodState state;
    const auto step = law.prepare(kelvin(20), kelvin(60), 1800, 0.08);
    Vector6 strain{};
    for (unsigned a = 0; a < 3; ++a)
      strain[a] = wood.expansion[a] * 40;
    const Vector6 history = law.history(state, step, 0);
    for (unsigned a = 0; a < 6; ++a)
      strain[a] -= history[a];
    const Vector6 stress = solve(law.tangent(step, 0), strain);
    for (unsigned a = 0; a < 6; ++a)
      EXPECT_NEAR(stress[a], 0, 1e-6) << wood.name;
  }
}

// Source: thermodynamics: an elastic piece that is warmed and cooled in a clamp gives back what it
// took, because strain is S(T) sigma in total form.
TEST(WoodLaw, WarmingAndCoolingUnderClampReturnsTheElasticStress)
{
  materials::Wood wood = maple();
  wood.creep_time.clear();
  wood.creep_share.clear();
  Bar bar(wood);
  const double cold = bar.strain(1e-3, 0, kelvin(20), kelvin(20));
  const double hot = bar.strain(1e-3, 1800, kelvin(20), kelvin(48));
  const double again = bar.strain(1e-3, 3600, kelvin(48), kelvin(20));
  EXPECT_LT(hot, cold);
  EXPECT_NEAR(again, cold, 1e-6 * cold);
}
} // namespace overbend::tests
