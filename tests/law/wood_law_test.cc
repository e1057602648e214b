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

// Source: second law: dissipation = work - change of stored energy, along random paths. The step is
// isothermal, and its work is by the trapezoidal rule on substeps.
TEST(WoodLaw, DissipationIsNeverNegative)
{
  std::mt19937 random(2);
  std::uniform_real_distribution<double> degrees(15, 60), decades(1, 7);
  const WoodLaw law(maple());
  const double f = law.wood().irrecoverable_share;
  double least = 0, total = 0;
  for (unsigned path = 0; path < 20; ++path) {
    WoodState state;
    for (unsigned leg = 0; leg < 20; ++leg) {
      const double T = kelvin(degrees(random));
      const double dt = std::pow(10, decades(random)) / 50;
      const auto stored = [&](const WoodState &s) {
        const auto now = law.prepare(T, T, 0, 0.08);
        double energy = 0.5 * dot(s.stress, now.elastic1 * s.stress);
        for (unsigned i = 0; i < law.n_elements(); ++i)
          energy += 0.5 * dot(s.kelvin[i], solve(now.creep1, s.kelvin[i])) /
                    ((1 - f) * law.wood().creep_share[i]);
        return energy;
      };
      const Vector6 from = state.stress, to = random_stress(random);
      const double before = stored(state);
      double work = 0;
      for (unsigned n = 0; n < 50; ++n) {
        const Vector6 strain0 = total_strain(law, state, T), stress0 = state.stress;
        Vector6 stress1;
        for (unsigned a = 0; a < 6; ++a)
          stress1[a] = from[a] + (to[a] - from[a]) * (n + 1) / 50;
        const auto step = law.prepare(T, T, dt, 0.08);
        law.finish(state, step, law.active(state, step, stress1), stress1);
        const Vector6 strain1 = total_strain(law, state, T);
        for (unsigned a = 0; a < 6; ++a)
          work += 0.5 * (stress0[a] + stress1[a]) * (strain1[a] - strain0[a]);
      }
      const double dissipated = work - (stored(state) - before);
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

// Source: a turn of the wood by 90 degrees about its length exchanges R and T.
TEST(WoodLaw, TurningTheFramePermutesTheModuli)
{
  const materials::Wood wood = maple();
  materials::Wood turned = wood;
  std::swap(turned.E_R, turned.E_T);
  std::swap(turned.G_LR, turned.G_LT);
  std::swap(turned.nu_LR, turned.nu_LT);
  turned.nu_RT = wood.nu_RT * wood.E_T / wood.E_R; // nu_TR
  std::swap(turned.creep_ratio[1], turned.creep_ratio[2]);
  std::swap(turned.creep_ratio[4], turned.creep_ratio[5]);
  std::swap(turned.moisture_exponent[1], turned.moisture_exponent[2]);
  std::swap(turned.moisture_exponent[4], turned.moisture_exponent[5]);
  const auto step = WoodLaw(wood).prepare(kelvin(20), kelvin(48), 7200, 0.08);
  const auto step_turned = WoodLaw(turned).prepare(kelvin(20), kelvin(48), 7200, 0.08);
  const Vector6 stress = {1e6, 2e6, 3e6, 4e6, 5e6, 6e6}, swapped = {1e6, 3e6, 2e6, 4e6, 6e6, 5e6};
  const Vector6 a = WoodLaw(wood).tangent(step, 0xff) * stress;
  const Vector6 b = WoodLaw(turned).tangent(step_turned, 0xff) * swapped;
  const unsigned place[6] = {0, 2, 1, 3, 5, 4};
  for (unsigned k = 0; k < 6; ++k)
    EXPECT_NEAR(a[k], b[place[k]], 1e-12 * std::abs(a[k]));
}

// Source: Wood Handbook Table 5-15 and Table 5-16.
TEST(WoodLaw, ModuliFallWithTemperatureAsTheHandbookSays)
{
  const WoodLaw law(maple());
  const auto ratio = [&](double degrees, double moisture, unsigned k) {
    const auto a = law.elastic(kelvin(20), moisture), b = law.elastic(kelvin(degrees), moisture);
    return k < 6 ? a.normal[k] / b.normal[k] : a.shear[k - 6] / b.shear[k - 6];
  };
  // The printed formula is against 70 degF and reads +0.32 % at 20 degC.
  const double at_20 = 1 + 0.078553 - 0.001108 * 68;
  const double degrees[] = {40, 45, 48, 50, 60}, change[] = {-3.67, -4.67, -5.26, -5.66, -7.66};
  for (unsigned n = 0; n < 5; ++n)
    expect("Modulus along the grain against 70 degF",
           "change at " + std::to_string(int(degrees[n])) + " degC, %", "Wood Handbook Table 5-16",
           change[n], 100 * (ratio(degrees[n], 0.12, 0) * at_20 - 1), 0.006);
  const std::string table = "Wood Handbook Table 5-15";
  expect("Modulus across the grain at 50 degC", "12 % moisture", table, 0.65, ratio(50, 0.12, 1),
         1e-9);
  expect("Modulus across the grain at 50 degC", "6 % moisture", table, 0.80, ratio(50, 0.06, 2),
         1e-9);
  expect("Modulus across the grain at 50 degC", "20 % moisture", table, 0.62, ratio(50, 0.20, 1),
         1e-9);
  expect("Shear modulus at 50 degC", "any moisture", table, 0.75, ratio(50, 0.12, 7), 1e-9);
}

// Source: Wood Handbook Eq. 5-3 with the values of its Table 5-3a, worked by hand.
TEST(WoodLaw, ModuliFollowMoistureAsTheHandbookSays)
{
  const double moisture[] = {0.06, 0.08, 0.10, 0.12, 0.15};
  const double sugar_maple[] = {13.59, 13.25, 12.92, 12.60, 12.13};
  const double poplar[] = {12.29, 11.81, 11.35, 10.90, 10.26};
  const double spruce[] = {11.89, 11.51, 11.15, 10.80, 10.29};
  const WoodLaw a(maple()), b(materials::tables().wood("yellow-poplar")),
      c(materials::tables().wood("Sitka spruce"));
  for (unsigned n = 0; n < 5; ++n) {
    const auto bending = [&](const WoodLaw &law) { // without the 10 % of the true modulus, GPa
      return 1e-9 / law.elastic(kelvin(20), moisture[n]).normal[0] / 1.1;
    };
    const std::string at = "at " + std::to_string(int(100 * moisture[n] + 0.5)) + " %, GPa";
    const std::string eq = "Wood Handbook Eq. 5-3";
    expect("Bending modulus against moisture", "sugar maple " + at, eq, sugar_maple[n], bending(a),
           0.006);
    expect("Bending modulus against moisture", "yellow-poplar " + at, eq, poplar[n], bending(b),
           0.006);
    expect("Bending modulus against moisture", "Sitka spruce " + at, eq, spruce[n], bending(c),
           0.006);
  }
}

// Source: linear algebra: a congruence keeps a matrix positive definite.
TEST(WoodLaw, EveryWoodStaysPositiveDefiniteWarmDampAndCreeping)
{
  for (const materials::Wood &wood : materials::tables().woods) {
    const WoodLaw law(wood);
    for (const double degrees : {-10., 20., 48., 80.})
      for (const double moisture : {0., 0.06, 0.12, 0.25, 0.6}) {
        const auto step = law.prepare(kelvin(degrees), kelvin(degrees), 1e9, moisture);
        EXPECT_GT(law.elastic(kelvin(degrees), moisture).least_relative_minor(), 0) << wood.name;
        EXPECT_GT(step.creep1.least_relative_minor(), 0) << wood.name;
        EXPECT_GT(law.tangent(step, 0xff).least_relative_minor(), 0) << wood.name;
      }
  }
}

// Source: definition of the stiffness factor.
TEST(WoodLaw, StiffnessFactorScalesTheWholeCompliance)
{
  const auto one = WoodLaw(maple()).prepare(kelvin(20), kelvin(40), 600, 0.08);
  const auto two = WoodLaw(maple(), 1.25).prepare(kelvin(20), kelvin(40), 600, 0.08);
  for (unsigned k = 0; k < 6; ++k) {
    EXPECT_NEAR(two.elastic1.normal[k] * 1.25, one.elastic1.normal[k],
                1e-12 * std::abs(one.elastic1.normal[k]));
    EXPECT_NEAR(two.creep1.normal[k] * 1.25, one.creep1.normal[k],
                1e-12 * std::abs(one.creep1.normal[k]));
  }
}

// Source: definition: steel has no creep, so time does nothing to it. E 205 GPa, nu 0.30, alpha
// 11.7e-6 /K from common handbooks (from memory).
TEST(WoodLaw, SteelIsElasticWhateverTheTime)
{
  const materials::Wood steel = materials::as_piece(materials::tables().bar("steel"));
  const WoodLaw law(steel);
  const auto step = law.prepare(kelvin(20), kelvin(50), 1e9, 0.08);
  EXPECT_EQ(law.n_elements(), 0U);
  expect("Steel", "modulus, GPa", "common handbooks, from memory", 205,
         1e-9 / law.tangent(step, 0).normal[0], 1e-6);
  expect("Steel", "shear modulus, GPa", "E/(2 (1 + nu))", 205 / 2.6,
         1e-9 / law.tangent(step, 0).shear[0], 1e-3);
  expect("Steel", "strain by 30 K, 1e-6", "common handbooks, from memory", 351,
         1e6 * law.history({}, step, 0)[0], 1e-6);
}

// Source: the rule of Poisson's symmetry, nu_ij/E_i = nu_ji/E_j, and the values of the table.
TEST(WoodLaw, PoissonRatiosAreSymmetricAndThoseOfTheTable)
{
  for (const materials::Wood &wood : materials::tables().woods) {
    const Compliance s =
        WoodLaw(wood).elastic(materials::reference_temperature, materials::reference_moisture);
    const Vector6 along = s * Vector6{1, 0, 0, 0, 0, 0}, radial = s * Vector6{0, 1, 0, 0, 0, 0};
    EXPECT_NEAR(-along[1] / along[0], wood.number("nu_LR").value[0], 1e-12);
    EXPECT_NEAR(-along[2] / along[0], wood.number("nu_LT").value[0], 1e-12);
    EXPECT_NEAR(-radial[2] / radial[1], wood.number("nu_RT").value[0], 1e-12);
    EXPECT_DOUBLE_EQ(along[1], radial[0]) << "nu_LR/E_L = nu_RL/E_R";
  }
}
} // namespace overbend::tests
