// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"

// How moisture moves through wood and its surface. Bound water below fibre saturation, driven by
// the moisture content m (kg/kg); T in K. Water flows at
//
//   q = -rho_0 D grad m                in the wood, kg/(m^2 s), rho_0 oven-dry mass over volume
//   q = rho_0 S (m_surface - m_rest)   out of its surface, m_rest = equilibrium_moisture(air)
//
// Values of single woods are hardly known; the numbers of the tables are for spruce and aspen and
// taken for all woods by one factor each.
namespace overbend::materials
{
// m^2/s across the grain, R and T alike:
//   D = factor D_12 exp(slope (m - 0.12)) exp(-E(m)/R (1/T - 1/T_ref)),  E = E_dry - E_fall m
// m is held within 0 and fibre saturation. D_12 at 12 % and 20 degC.
double diffusion_across(const Wood &wood, double temperature, double moisture);

// m^2/s along the grain: a ratio to D across that falls exponentially from dry wood (5 %) to damp
// (fibre saturation), constant beyond.
double diffusion_along(const Wood &wood, double temperature, double moisture);

enum class FilmCondition { sound, worn };

// m/s, emission of a surface: the layer of air and the film of finish one behind the other,
//   1/S = (1/S_air + r_film + r_cloth) p_sat(T_ref)/p_sat(T),   S_air = S_0 exp(4 m)
// with the cloth of a wrap around it, r_cloth in s/m, or none. All carry vapour, so all grow with
// its saturation pressure (an estimate; the tables are for 20 degC). Multiply by the share of the
// face that is open to air.
double surface_emission(const Finish &finish, FilmCondition condition, double temperature,
                        double moisture, double cloth = 0);
} // namespace overbend::materials
