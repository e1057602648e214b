// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/table_entry.h"

#include <array>

// A wood of the table, in SI.
namespace overbend::materials
{
// A share that grows linearly with the moisture content between two points and is constant beyond.
struct MoistureLine
{
  double dry_moisture = 0, dry = 0; // kg/kg, share
  double wet_moisture = 1, wet = 0;

  double at(double moisture) const;
};

// P/P12 at a moisture content (kg/kg) of a property whose green value is green_ratio P12, by the
// Wood Handbook, Eq. 5-3: P = P12 (P12/Pg)^((12 - M)/(Mp - 12)), at about 21 degC. Moisture is held
// within 0 and the intersection Mp. Not for work, impact or tension across the grain.
double moisture_factor(double green_ratio, double intersection, double moisture);

// Strength of clear wood at 12 % moisture content and 20 degC, Pa. A missing one is unknown, and
// the criterion says so. Green values (above fibre saturation) serve the moisture formula; without
// its green value a strength stays as at 12 %.
struct WoodStrength
{
  double bending = 0; // modulus of rupture; also taken as tension along
  std::optional<double> bending_green;
  double compression_along = 0;
  std::optional<double> compression_across; // proportional limit
  std::optional<double> shear_along;
  std::optional<double> tension_across;
  double rolling_shear_share = 0; // of shear_along
  std::optional<double> compression_along_green, compression_across_green, shear_along_green;

  // Share lost at 50 degC.
  MoistureLine bending_drop, compression_along_drop, compression_across_drop;
  MoistureLine tension_across_drop, shear_drop;
};

struct Wood : Entry
{
  // Elastic, at 12 % moisture content and 20 degC, Pa. E_L is the true one (bending value + 10 %).
  double E_L = 0, E_R = 0, E_T = 0;
  double G_RT = 0, G_LT = 0, G_LR = 0;
  double nu_LR = 0, nu_LT = 0, nu_RT = 0; // first letter: direction of the load

  // Moduli against moisture: P = P12 (P12/Pg)^((12-M)/(Mp-12)) for E_L (Wood Handbook Eq. 5-3),
  // its factor to the power of the exponent for the other moduli. M is held within 0 and Mp.
  double modulus_green_ratio = 1;      // Pg/P12 of E_L
  double moisture_intersection = 0.25; // Mp, kg/kg
  std::array<double, n_directions> moisture_exponent{};

  // Reversible drop with temperature. Along: share lost per kelvin of the modulus at 20 degC
  // (linear). Across: share lost at +30 K for 6 %, 12 % and 20 % moisture (exponential through
  // it). In shear: share lost at +30 K.
  double drop_along = 0;
  std::array<double, 3> drop_across{};
  double drop_shear = 0;

  // Creep: chain along the grain, ratios of the six directions against L.
  double creep_instant = 0;        // part that is there at once, share of the elastic strain
  std::vector<double> creep_time;  // s, at 20 degC; at most 8; empty: no creep
  std::vector<double> creep_share; // g_i
  std::array<double, n_directions> creep_ratio{};
  double irrecoverable_share = 0;
  double activation_energy = 0; // J/mol

  // Creep shift with moisture: logistic in the moisture content, see WoodLaw::shift.
  double creep_moisture_gain = 0; // rise of ln a from dry to saturated
  double creep_moisture_middle = 0.2, creep_moisture_width = 0.01; // kg/kg

  // Mechano-sorptive creep: moisture travelled (kg/kg) over which an element comes within 1/e of
  // its end, and its share of the elastic strain in the six directions; at most 4, none: no such
  // creep. First-drying set: share of the elastic strain per kg/kg of moisture newly lost.
  std::vector<double> sorptive_moisture;
  std::vector<std::array<double, n_directions>> sorptive_share;
  std::array<double, n_directions> drying_set{};

  // Swelling along the grain per kg/kg below and above a knee; across it is by the shrinkage below.
  // Of strained wood it is less by the factor times the strain, WoodLaw.
  double swelling_L_dry = 0, swelling_L_damp = 0, swelling_knee = 0.08; // kg/kg
  double swelling_strain_factor = 0;
  double kiln_moisture = 0;       // kg/kg, the driest this wood has been before it became a neck
  double fibre_saturation = 0.30; // kg/kg, no change beyond (Wood Handbook Eq. 4-9)

  // Diffusion of bound water: see materials/moisture_transport.h.
  double diffusion_12 = 0, diffusion_slope = 0;             // m^2/s with the factor of the wood, -
  double diffusion_energy = 0, diffusion_energy_fall = 0;   // J/mol, J/mol per kg/kg
  double diffusion_ratio_dry = 1, diffusion_ratio_damp = 1; // along against across

  // Thermal expansion at the reference, 1/K, in L, R, T.
  std::array<double, 3> expansion{};

  // Mass and heat. Gravity is oven-dry mass on green volume; shrinkage is green to oven-dry.
  double gravity_green = 0;
  double shrinkage_R = 0, shrinkage_T = 0, shrinkage_volume = 0;
  double conduction_ratio = 0; // along against across

  WoodStrength strength;
};
} // namespace overbend::materials
