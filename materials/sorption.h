// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace overbend::materials
{
// Which way wood came to rest. The handbook's curve lies between the other two.
enum class SorptionBranch { mean, adsorption, desorption };

// Moisture content (kg/kg) at which wood comes to rest in air of a temperature (K) and relative
// humidity (0..1): Hailwood-Horrobin with the constants of Simpson, Wood Handbook Eq. 4-5,
//
//   M = 18/W [ K h/(1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2) ]
//
// fitted to Sitka spruce between -1 and 132 degC; other woods differ by about one percent of mass.
//
// Branches: M times branch_factor(h) = u_branch/((u_ads + u_des)/2), from the two curves of Maas
// and Wittel for spruce at 20 degC (read there; the ratio is computed),
//
//   u_ads = h/(3.308 + 12.087 h - 11.839 h^2),   u_des = h/(2.393 + 10.122 h - 8.935 h^2)
//
// taken for every wood and temperature, which is an estimate: the gap narrows in warm wood, and a
// branch holds for wood that came all the way from dry or from damp; between them wood scans from
// one to the other. At 65 % humidity 0.92 and 1.08. The same authors' single rods show a wider gap
// there (11.2 against 14.3 %) than their curves do.
// Throws std::domain_error outside 0 <= humidity <= 1 or -40 to 140 degC.
double equilibrium_moisture(double temperature, double humidity,
                            SorptionBranch branch = SorptionBranch::mean);
double branch_factor(double humidity, SorptionBranch branch);

// Relative humidity (0..1) of air in which wood of a moisture content (kg/kg) neither gains nor
// loses: the inverse, by bisection to 1e-12; 1 for wetter wood. This is also the humidity that wood
// wrapped without air to spare gives the air around it.
// Throws std::domain_error for a negative moisture content or -40 to 140 degC left.
double rest_humidity(double temperature, double moisture,
                     SorptionBranch branch = SorptionBranch::mean);
} // namespace overbend::materials
