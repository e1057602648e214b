// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"
#include "materials/thermal.h"
#include "tests/law/point.h"

#include <stdexcept>

namespace overbend::tests
{
using namespace materials;

// Source: Wood Handbook Eq. 4-5 (Hailwood-Horrobin) worked over temperature and humidity; 7.7 % at
// 21.1 degC and 40 % and 12.0 % at 65 % are printed in its Table 4-2.
TEST(Sorption, EquilibriumMoistureIsThatOfTheHandbook)
{
  const double humidity[] = {0.20, 0.30, 0.40, 0.50, 0.60, 0.65, 0.70, 0.80, 0.90};
  const std::pair<double, std::vector<double>> rows[] = {
      {20, {4.51, 6.19, 7.72, 9.27, 11.00, 12.00, 13.13, 16.04, 20.53}},
      {21.1, {4.49, 6.17, 7.70, 9.24, 10.97, 11.96, 13.09, 15.99, 20.48}},
      {32.2, {4.30, 5.93, 7.41, 8.89, 10.55, 11.51, 12.60, 15.42, 19.85}},
      {48, {3.93, 5.46, 6.85, 8.24, 9.80, 10.70, 11.73, 14.42, 18.71}},
      {50, {3.87, 5.39, 6.77, 8.15, 9.69, 10.59, 11.61, 14.28, 18.55}}};
  for (const auto &[degrees, percent] : rows)
    for (unsigned n = 0; n < 9; ++n)
      expect("Equilibrium moisture, %",
             std::to_string(degrees).substr(0, 4) + " degC, " +
                 std::to_string(int(100 * humidity[n] + 0.5)) + " % RH",
             "Wood Handbook Eq. 4-5", percent[n],
             100 * equilibrium_moisture(kelvin(degrees), humidity[n]), 0.011);
  // Room air of 20 degC and 50 % warmed to 48 degC without water: vapour pressure by Magnus.
  const auto saturation = [](double t) { return std::exp(17.625 * t / (t + 243.04)); };
  expect("Equilibrium moisture, %", "air of 20 degC, 50 % RH, warmed to 48 degC",
         "Wood Handbook Eq. 4-5 and Magnus", 2.2,
         100 * equilibrium_moisture(kelvin(48), 0.5 * saturation(20) / saturation(48)), 0.06);
  EXPECT_EQ(equilibrium_moisture(kelvin(20), 0), 0);
  EXPECT_THROW(equilibrium_moisture(kelvin(20), 1.01), std::domain_error);
  EXPECT_THROW(equilibrium_moisture(kelvin(20), std::nan("")), std::domain_error);
}

// Source: Wood Handbook Eq. 4-14 to 4-18; worked examples of the handbook and of published code.
TEST(Heat, ConductivityDensityAndHeatCapacityAreThoseOfTheHandbook)
{
  Wood wood;
  wood.gravity_green = 0.54;
  wood.shrinkage_volume = 0.123;
  wood.conduction_ratio = 1.8;
  expect("Conductivity across the grain", "G 0.54, S0 12.3 %, 10 % moisture, W/(m K)",
         "Wood Handbook Eq. 4-15", 0.1567, conductivity_across(wood, 0.10), 5e-5);
  EXPECT_DOUBLE_EQ(conductivity_along(wood, 0.10), 1.8 * conductivity_across(wood, 0.10));
  expect("Heat capacity", "12 %, 340 K, kJ/(kg K)", "Wood Handbook Eq. 4-17", 1.9146,
         1e-3 * heat_capacity(340, 0.12), 5e-5);
  wood.gravity_green = 0.60;
  wood.shrinkage_volume = 0;
  expect("Density", "G 0.60, 12 %, kg/m^3", "Wood Handbook Eq. 4-14", 672, density(wood, 0.12),
         1e-9);
}

// Source: the same equations worked at 8 % moisture and 35 degC with the green gravity of the
// handbook (from memory).
TEST(Heat, WoodsOfTheTableHaveTheWorkedDensityConductivityAndDiffusivity)
{
  struct Row
  {
    const char *wood;
    double density, conductivity, diffusivity;
  };
  const Row rows[] = {
      {"sugar maple", 678, 0.161, 1.50e-7},       {"red maple", 583, 0.141, 1.52e-7},
      {"Honduras mahogany", 515, 0.127, 1.55e-7}, {"yellow-poplar", 476, 0.119, 1.57e-7},
      {"black cherry", 554, 0.135, 1.54e-7},      {"Indian rosewood", 864, 0.200, 1.46e-7},
      {"Sitka spruce", 436, 0.110, 1.59e-7}};
  const std::string what = "Heat data at 8 %, 35 degC", source = "Wood Handbook ch. 4, worked";
  const double capacity = heat_capacity(kelvin(35), 0.08);
  expect(what, "heat capacity, J/(kg K)", source, 1586, capacity, 0.5);
  for (const Row &row : rows) {
    const Wood &wood = tables().wood(row.wood);
    const double rho = density(wood, 0.08), k = conductivity_across(wood, 0.08);
    expect(what, std::string(row.wood) + ", density, kg/m^3", source, row.density, rho, 1);
    expect(what, std::string(row.wood) + ", conductivity, W/(m K)", source, row.conductivity, k,
           6e-4);
    expect(what, std::string(row.wood) + ", diffusivity, 1e-7 m^2/s", source, 1e7 * row.diffusivity,
           1e7 * k / (rho * capacity), 0.006);
  }
}

// Source: formulas of Weatherwax and Stamm as in the Wood Handbook (from memory), worked.
TEST(Heat, ExpansionAcrossTheGrainFollowsTheDryGravity)
{
  struct Row
  {
    const char *wood;
    double radial, tangential;
  };
  for (const Row &row : {Row{"sugar maple", 31.2, 39.7}, Row{"Honduras mahogany", 25.7, 34.2},
                         Row{"Indian rosewood", 36.5, 45.0}}) {
    const Wood &wood = tables().wood(row.wood);
    expect("Thermal expansion, 1e-6 /K", std::string(row.wood) + ", R", "Wood Handbook Eq. 4-19",
           row.radial, 1e6 * wood.expansion[1], 0.06);
    expect("Thermal expansion, 1e-6 /K", std::string(row.wood) + ", T", "Wood Handbook Eq. 4-20",
           row.tangential, 1e6 * wood.expansion[2], 0.06);
  }
}
} // namespace overbend::tests
