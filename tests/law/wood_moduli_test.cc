// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/law/point.h"

// The moduli of a wood: frame, temperature, moisture, positive definiteness, bars.
namespace overbend::tests
{
namespace
{
using materials::Compliance;
using materials::Vector6;
using materials::WoodLaw;

const materials::Wood &maple()
{
  return materials::tables().wood("sugar maple");
}
} // namespace

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

// Source: the congruence J_ab = sqrt(r_a r_b) S_ab with the creep ratios of the table.
TEST(WoodLaw, CreepComplianceIsTheCongruenceOfTheRatios)
{
  const auto &r = maple().creep_ratio;
  const auto step = WoodLaw(maple()).prepare(kelvin(20), kelvin(20), 600, 0.12);
  const Compliance s = WoodLaw(maple()).elastic(kelvin(20), 0.12);
  for (unsigned a = 0; a < 3; ++a) {
    EXPECT_NEAR(step.creep1.normal[a] / s.normal[a], r[a], 1e-12 * r[a]);
    EXPECT_NEAR(step.creep1.shear[a] / s.shear[a], r[3 + a], 1e-12 * r[3 + a]);
  }
  const double LR = std::sqrt(r[0] * r[1]), LT = std::sqrt(r[0] * r[2]),
               RT = std::sqrt(r[1] * r[2]);
  EXPECT_NEAR(step.creep1.normal[3] / s.normal[3], LR, 1e-12 * LR);
  EXPECT_NEAR(step.creep1.normal[4] / s.normal[4], LT, 1e-12 * LT);
  EXPECT_NEAR(step.creep1.normal[5] / s.normal[5], RT, 1e-12 * RT);
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
