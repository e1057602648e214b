// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"

// Mass and heat of wood as functions of its moisture content m (kg/kg) and temperature T (K).
// Formulas of the Wood Handbook, chapter 4 (FPL-GTR-190 and FPL-GTR-282), M = 100 m.
namespace overbend::materials
{
// Oven-dry mass over volume at m: G_m = G_green/(1 - S_m), S_m = S_0 (1 - M/30), S_m = 0 beyond
// 30 % (Eq. 4-9).
double gravity(const Wood &wood, double moisture);

// kg/m^3: rho = 1000 G_m (1 + m) (Eq. 4-14).
double density(const Wood &wood, double moisture);

// W/(m K), across the grain: k = G_m (0.1941 + 0.004064 M) + 0.01864 (Eq. 4-15 of 2010, 4-17 of
// 2021), for G_m > 0.3, M < 25 %, about 24 degC.
double conductivity_across(const Wood &wood, double moisture);

// Along the grain: the wood's ratio times the value across.
double conductivity_along(const Wood &wood, double moisture);

// J/(kg K): dry c0 = 0.1031 + 0.003867 T kJ/(kg K); moist (c0 + 4.18 m)/(1 + m) plus
// M (-0.06191 + 2.36e-4 T - 1.33e-4 M) (Eq. 4-16 to 4-18), 280 to 420 K, below fibre saturation.
double heat_capacity(double temperature, double moisture);
} // namespace overbend::materials
