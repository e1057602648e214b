// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace overbend::materials
{
// Moisture content (kg/kg) at which wood comes to rest in air of a temperature (K) and relative
// humidity (0..1): Hailwood-Horrobin with the constants of Simpson, Wood Handbook Eq. 4-5,
//
//   M = 18/W [ K h/(1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2) ]
//
// fitted to Sitka spruce between -1 and 132 degC; other woods differ by about one percent of mass,
// and wood that is drying holds up to 3 % more than wood that is taking up water.
// Throws std::domain_error outside 0 <= humidity <= 1 or -40 to 140 degC.
double equilibrium_moisture(double temperature, double humidity);
} // namespace overbend::materials
