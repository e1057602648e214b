// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/law/damp_point.h"

// Free swelling and the shift of creep with moisture.
namespace overbend::tests
{
using materials::swelling_strain;
using materials::tables;

// Source: Wood Handbook Table 13-5, dimensional change for 1 % of moisture between 6 and 14 %, of
// the size at 10 %. The law goes by the shrinkage from green of another table.
TEST(Swelling, AcrossTheGrainIsThatOfTheHandbooksOtherTable)
{
  struct Row
  {
    const char *wood;
    double radial, tangential; // per cent for 1 % of moisture
  };
  for (const Row &row : {Row{"sugar maple", 0.165, 0.353}, Row{"red maple", 0.137, 0.289},
                         Row{"black cherry", 0.126, 0.248}, Row{"white ash", 0.169, 0.274},
                         Row{"yellow birch", 0.256, 0.338}}) {
    const auto strain = swelling_strain(tables().wood(row.wood), 0.10, 0.11);
    const std::string what = "Swelling for 1 % of moisture, %", source = "Wood Handbook Table 13-5";
    expect(what, std::string(row.wood) + ", R", source, row.radial, 100 * strain[1], 0.001);
    expect(what, std::string(row.wood) + ", T", source, row.tangential, 100 * strain[2], 0.001);
  }
}

// Source: a timber council: 0.1 to 0.2 % from green to dry along the grain, in all woods; Wood
// Handbook Eq. 4-9: nothing above 30 %, straight across below.
TEST(Swelling, AlongTheGrainHasAKneeAndNothingMovesAboveFibreSaturation)
{
  const materials::Wood &maple = tables().wood("sugar maple");
  const double whole = swelling_strain(maple, 0, 0.30)[0];
  expect("Swelling along the grain, dry to green, %", "sugar maple", "timber council, 0.1 to 0.2",
         0.15, 100 * whole, 0.05);
  const double low = swelling_strain(maple, 0.02, 0.03)[0] / 0.01;
  const double high = swelling_strain(maple, 0.11, 0.12)[0] / 0.01;
  expect("Swelling along the grain per unit of moisture", "below 8 %", "Maas and Wittel", 0.0179,
         low, 1e-9);
  expect("Swelling along the grain per unit of moisture", "above 8 %", "Maas and Wittel", 0.0023,
         high, 1e-9);
  for (const double strain : swelling_strain(maple, 0.30, 0.80))
    EXPECT_EQ(strain, 0);
  const auto back = swelling_strain(maple, 0.20, 0.05), there = swelling_strain(maple, 0.05, 0.20);
  for (unsigned a = 1; a < 3; ++a) // same two sizes, seen from either
    EXPECT_NEAR((1 + back[a]) * (1 + there[a]), 1, 1e-14);
}

// Source: statics: a body free to swell carries no stress, whatever the moisture does to its
// moduli.
TEST(Swelling, FreeSwellingGivesNoStress)
{
  for (const materials::Wood &wood : tables().woods) {
    const materials::WoodLaw law(wood, 1, 0.08);
    const materials::WoodState state;
    const double along = 3.5;
    const auto step = law.prepare({kelvin(20), 0.08}, {kelvin(20), 0.05}, 86400, along);
    auto strain = swelling_strain(wood, 0.08, 0.05);
    strain[0] *= along;
    const Vector6 history = law.history(state, step, 0);
    for (unsigned a = 0; a < 6; ++a)
      EXPECT_NEAR(history[a], a < 3 ? strain[a] : 0, 1e-15) << wood.name;
    EXPECT_GT(std::abs(history[2]), 1e-4) << wood.name;
  }
}

// Source: definition: a piece whose moisture as built is not known does not swell, and its creep
// at 12 % is that of the dry law.
TEST(Swelling, NoneWithoutTheMoistureAsBuilt)
{
  const materials::WoodLaw law(tables().wood("sugar maple"));
  const auto step = law.prepare({kelvin(20), 0.12}, {kelvin(20), 0.05}, 86400);
  for (const double strain : step.free_strain1)
    EXPECT_EQ(strain, 0);
  EXPECT_THROW(materials::WoodLaw(tables().wood("sugar maple"), 1, -0.1), std::logic_error);
}

// Source: the fits of Maas and Wittel, spruce at 20 degC: ln a = p1 + (y - p1)/(1 + exp(p0 - M))
// for each direction, against 12 %. One curve stands for all: what it leaves out is printed.
TEST(CreepShift, WithMoistureLiesAmongTheFitsOfTheDirections)
{
  struct Fit
  {
    const char *name;
    double p0, p1, y;
  };
  const Fit fits[] = {{"LL", 19.38, -0.0036, 3.543}, {"RR", 18.34, -0.0162, 5.603},
                      {"TT", 18.43, -0.0131, 4.895}, {"RT", 18.28, -0.0354, 11.507},
                      {"LT", 19.01, -0.0066, 4.478}, {"LR", 19.25, -0.0036, 3.129}};
  const materials::WoodLaw law(tables().wood("sugar maple"));
  EXPECT_EQ(law.shift(kelvin(20), 0.12), 1);
  EXPECT_DOUBLE_EQ(law.shift(kelvin(48)), law.shift(kelvin(48), 0.12));
  for (const double percent : {6., 16., 20.}) {
    double lowest = 1e9, highest = -1e9;
    for (const Fit &f : fits) {
      const auto at = [&](double M) { return f.p1 + (f.y - f.p1) / (1 + std::exp(f.p0 - M)); };
      lowest = std::min(lowest, at(percent) - at(12));
      highest = std::max(highest, at(percent) - at(12));
    }
    expect("Creep shift with moisture, ln a against 12 %",
           "at " + std::to_string(int(percent)) + " %, between the fits of six directions",
           "Maas and Wittel", (lowest + highest) / 2,
           std::log(law.shift(kelvin(20), percent / 100)), (highest - lowest) / 2 + 1e-3);
  }
  // Temperature and moisture multiply.
  EXPECT_NEAR(law.shift(kelvin(48), 0.18), law.shift(kelvin(48)) * law.shift(kelvin(20), 0.18),
              1e-10 * law.shift(kelvin(48), 0.18));
}
} // namespace overbend::tests
