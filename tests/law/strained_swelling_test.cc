// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/law/damp_point.h"

// Swelling along the grain of wood that is strained: alpha - b eps.
namespace overbend::tests
{
namespace
{
materials::Wood only_strained_swelling()
{
  materials::Wood wood = only_mechano_sorptive();
  wood.sorptive_moisture.clear();
  wood.sorptive_share.clear();
  wood.drying_set = {};
  wood.swelling_strain_factor = materials::tables().wood("sugar maple").swelling_strain_factor;
  return wood;
}

double strain_along(const DampPoint &point)
{
  return total_strain(point.law, point.state)[0];
}
} // namespace

// Source: the equation d eps/dm = -b eps, whose solution is exp(-b (m1 - m0)), in tension and in
// compression, with any number of steps; b = 1.3 is Toratti 1992, from memory.
TEST(StrainedSwelling, FollowsItsEquationAndComesBackWithTheMoisture)
{
  const materials::Wood wood = only_strained_swelling();
  for (const double stress : {10 * MPa, -10 * MPa})
    for (const unsigned steps : {1U, 6U}) {
      DampPoint point(wood);
      point.load({stress, 0, 0, 0, 0, 0}, 0.12);
      const double elastic = strain_along(point);
      for (unsigned n = 1; n <= steps; ++n)
        point.move(0.12 - 0.06 * n / steps);
      expect("Wood strained along the grain and dried from 12 to 6 %",
             std::string(stress > 0 ? "stretched" : "compressed") + ", " + std::to_string(steps) +
                 " steps, share of the first strain",
             "exp(b 0.06), b = 1.3 (Toratti 1992, from memory)", std::exp(1.3 * 0.06),
             strain_along(point) / elastic, 1e-12);
      point.move(0.12);
      EXPECT_NEAR(strain_along(point) / elastic, 1, 1e-12);
    }
}

// Wood that does not creep at all, of which no creep compliance tells the elastic one.
TEST(StrainedSwelling, IsThatOfWoodThatDoesNotCreepToo)
{
  materials::Wood wood = only_strained_swelling();
  wood.creep_ratio = {};
  DampPoint point(wood);
  point.load({10 * MPa, 0, 0, 0, 0, 0}, 0.12);
  const double elastic = strain_along(point);
  point.move(0.06);
  EXPECT_NEAR(strain_along(point) / elastic, std::exp(1.3 * 0.06), 1e-12);
}

// Source: the law's own words: only along the grain, and nothing without strain.
TEST(StrainedSwelling, LeavesOtherDirectionsAndUnstrainedWoodAlone)
{
  const materials::Wood wood = only_strained_swelling();
  DampPoint across(wood), free(wood);
  across.load({0, MPa, MPa, MPa, MPa, MPa}, 0.12);
  const Vector6 before = total_strain(across.law, across.state);
  across.move(0.05);
  EXPECT_EQ(total_strain(across.law, across.state), before);
  free.load({}, 0.12);
  free.move(0.05);
  EXPECT_EQ(total_strain(free.law, free.state), Vector6{});
}

// Source: order of the step: the strain changes with the stress over the step, the error falls with
// its first power.
TEST(StrainedSwelling, IsOfFirstOrderWhenTheStrainMovesWithinAStep)
{
  const materials::Wood wood = only_strained_swelling();
  const auto end = [&](unsigned steps) {
    DampPoint point(wood);
    point.load({2 * MPa, 0, 0, 0, 0, 0}, 0.14);
    for (unsigned n = 1; n <= steps; ++n) {
      const double s = double(n) / steps;
      point.move(0.14 - 0.08 * s, {(2 + 8 * s) * MPa, 0, 0, 0, 0, 0});
    }
    return strain_along(point);
  };
  const double exact = end(4096), coarse = end(8) - exact, fine = end(16) - exact;
  expect("Swelling of strained wood, strain moving", "order in the step of moisture", "definition",
         1, std::log2(coarse / fine), 0.02);
  EXPECT_LT(std::abs(end(8) / exact - 1), 0.01);
}

// Source: Montero, Gril, Legeas, Hunt and Clair 2012 (Holzforschung, abstract): of loaded wood in
// cycles of moisture, after the first ones the strain grows on drying and goes back in part on
// wetting, and two histories meet after a few cycles.
TEST(StrainedSwelling, LoadedWoodInCyclesGrowsOnDryingAndGoesBackOnWetting)
{
  const materials::Wood &wood = materials::tables().wood("Norway spruce");
  const auto cycles = [&](double first) {
    DampPoint point(wood);
    std::vector<double> strain;
    point.load({10 * MPa, 0, 0, 0, 0, 0}, first);
    for (unsigned cycle = 0; cycle < 8; ++cycle)
      for (const double m : {0.16, 0.06}) {
        point.move(m);
        strain.push_back(strain_along(point));
      }
    return strain;
  };
  const std::vector<double> from_dry = cycles(0.06), from_damp = cycles(0.16);
  const std::size_t last = from_dry.size() - 1;
  EXPECT_GT(from_dry[last], from_dry[last - 1]) << "grows on drying";
  EXPECT_LT(from_dry[last - 1], from_dry[last - 2]) << "goes back on wetting";
  EXPECT_GT(from_dry[0], strain_along([&] {
              DampPoint point(wood);
              point.load({10 * MPa, 0, 0, 0, 0, 0}, 0.06);
              return point;
            }()))
      << "loaded dry, the first wetting adds";
  report("Loaded wood in cycles of moisture, 6 to 16 %", "loaded dry against loaded damp, end",
         "Montero et al. 2012: they meet", 1, from_dry[last] / from_damp[last], 0.1);
  EXPECT_NEAR(from_dry[last] / from_damp[last], 1, 0.1);
}
} // namespace overbend::tests
