// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/table_reader.h"
#include "materials/wood_law.h"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace overbend::materials
{
namespace
{
void check_positive(const EntryReader &reader, const std::string &what, double value)
{
  if (!(value > 0))
    reader.fail(reader.line(), what + " is not positive", "correct it");
}

std::array<double, n_directions> six(EntryReader &reader, const std::string &key)
{
  const std::vector<double> values = reader.common_list(key, "1");
  if (values.size() != n_directions)
    reader.fail(reader.line(), "`" + key + "` must have six numbers",
                "give LL, RR, TT, RT, LT, LR");
  std::array<double, n_directions> array{};
  std::copy(values.begin(), values.end(), array.begin());
  return array;
}

void read_elastic(EntryReader &reader, Wood &w)
{
  const double bending = reader.number("bending_modulus", "GPa");
  w.E_L = reader.common_number("true_modulus_factor", "1") * bending;
  w.E_R = w.E_L * reader.number("E_R_ratio", "1");
  w.E_T = w.E_L * reader.number("E_T_ratio", "1");
  w.G_LR = w.E_L * reader.number("G_LR_ratio", "1");
  w.G_LT = w.E_L * reader.number("G_LT_ratio", "1");
  w.G_RT = w.E_L * reader.number("G_RT_ratio", "1");
  w.nu_LR = reader.number("nu_LR", "1");
  w.nu_LT = reader.number("nu_LT", "1");
  w.nu_RT = reader.number("nu_RT", "1");
  w.modulus_green_ratio = reader.number("bending_modulus_green", "GPa") / bending;
  w.moisture_intersection = reader.number("moisture_intersection", "%");
  w.moisture_exponent = six(reader, "moisture_exponent");
  for (const double value : {w.E_L, w.E_R, w.E_T, w.G_LR, w.G_LT, w.G_RT, w.modulus_green_ratio,
                             w.moisture_intersection - reference_moisture})
    check_positive(reader, "a modulus, its green value, or moisture_intersection - 12 %", value);
}

// Wood Handbook Table 5-16: P/P(70 degF) = 1 + (constant - slope T(degF)). Turned into the share of
// the value at 20 degC (68 degF) that is lost with each kelvin.
void read_temperature(EntryReader &reader, Wood &w)
{
  const double constant = reader.common_number("modulus_70F_constant", "%");
  const double slope_per_kelvin = reader.common_number("modulus_70F_slope", "%/degF");
  w.drop_along = slope_per_kelvin / (1 + constant - slope_per_kelvin * 68 / 1.8);
  const std::vector<double> across = reader.common_list("drop_across_50C", "%");
  if (across.size() != 3)
    reader.fail(reader.line(), "`drop_across_50C` must have three numbers",
                "give it at 6, 12 and 20 % moisture");
  std::copy(across.begin(), across.end(), w.drop_across.begin());
  w.drop_shear = reader.common_number("drop_shear_50C", "%");
  for (const double drop : {across[0], across[1], across[2], w.drop_shear})
    if (!(drop >= 0 && drop < 1))
      reader.fail(reader.line(), "a drop at 50 degC is not within 0 and 100 %", "correct it");
}

void read_creep(EntryReader &reader, Wood &w)
{
  const double factor = reader.number("creep_factor", "1");
  w.creep_instant = factor * reader.common_number("creep_instant", "1");
  w.creep_time = reader.common_list("creep_time", "s");
  w.creep_share = reader.common_list("creep_share", "1");
  w.creep_ratio = six(reader, "creep_ratio");
  w.irrecoverable_share = reader.common_number("irrecoverable_share", "1");
  w.activation_energy = reader.common_number("activation_energy", "kJ/mol");
  if (w.creep_time.size() != w.creep_share.size() || w.creep_time.size() > max_elements)
    reader.fail(reader.line(), "creep_time and creep_share do not belong together",
                "give the same number of both, at most " + std::to_string(max_elements));
  for (double &share : w.creep_share) {
    share *= factor;
    check_positive(reader, "a creep share", share);
  }
  for (const double time : w.creep_time)
    check_positive(reader, "a creep time", time);
  for (const double ratio : w.creep_ratio)
    check_positive(reader, "a creep ratio", ratio);
  if (!(w.irrecoverable_share >= 0 && w.irrecoverable_share <= 1))
    reader.fail(reader.line(), "irrecoverable_share is not within 0 and 1", "correct it");
}

// Expansion across the grain from the oven-dry gravity G0 = G_green/(1 - S0): Wood Handbook
// (GTR-190) Eq. 4-19 and 4-20, for G0 within 0.1 and 0.8.
void read_heat(EntryReader &reader, Wood &w)
{
  w.gravity_green = reader.number("gravity_green", "1");
  w.shrinkage_R = reader.number("shrinkage_R", "%");
  w.shrinkage_T = reader.number("shrinkage_T", "%");
  w.shrinkage_volume = reader.number("shrinkage_volume", "%");
  w.conduction_ratio = reader.common_number("conduction_ratio", "1");
  check_positive(reader, "gravity or what remains after shrinkage",
                 std::min(w.gravity_green, 1 - w.shrinkage_volume));
  const double dry_gravity = w.gravity_green / (1 - w.shrinkage_volume);
  const double slope = reader.common_number("expansion_slope", "1e-6/K") * dry_gravity;
  w.expansion = {reader.common_number("expansion_L", "1e-6/K"),
                 slope + reader.common_number("expansion_R_constant", "1e-6/K"),
                 slope + reader.common_number("expansion_T_constant", "1e-6/K")};
}

// Loss at 50 degC at the two moisture contents (kg/kg) for which Table 5-15 is given.
MoistureLine read_drop(EntryReader &reader, const std::string &key, double dry, double wet)
{
  const std::vector<double> share = reader.common_list(key, "%");
  if (share.size() != 2 || !(share[0] >= 0 && share[1] < 1 && share[0] <= share[1]))
    reader.fail(reader.line(), "`" + key + "` must have two numbers within 0 and 100 %, rising",
                "give the loss of the drier and of the wetter wood");
  return {dry, share[0], wet, share[1]};
}

void read_strength(EntryReader &reader, Wood &w)
{
  WoodStrength &s = w.strength;
  s.bending = reader.number("bending", "MPa");
  s.bending_green = reader.number_or_missing("bending_green", "MPa");
  s.compression_along = reader.number("compression_along", "MPa");
  s.compression_across = reader.number_or_missing("compression_across", "MPa");
  s.shear_along = reader.number_or_missing("shear_along", "MPa");
  s.tension_across = reader.number_or_missing("tension_across", "MPa");
  s.rolling_shear_share = reader.common_number("rolling_shear_share", "1");
  s.compression_along_green = reader.number_or_missing("compression_along_green", "MPa");
  s.compression_across_green = reader.number_or_missing("compression_across_green", "MPa");
  s.shear_along_green = reader.number_or_missing("shear_along_green", "MPa");
  s.bending_drop = read_drop(reader, "bending_drop_50C", 0.04, 0.11);
  s.compression_along_drop = read_drop(reader, "compression_along_drop_50C", 0, 0.12);
  s.compression_across_drop = read_drop(reader, "compression_across_drop_50C", 0.06, 0.10);
  s.tension_across_drop = read_drop(reader, "tension_across_drop_50C", 0.06, 0.18);
  s.shear_drop = read_drop(reader, "shear_drop_50C", 0, 0.30);
  for (const double value :
       {s.bending, s.bending_green.value_or(1), s.compression_along,
        s.compression_across.value_or(1), s.shear_along.value_or(1), s.tension_across.value_or(1),
        s.rolling_shear_share, s.compression_along_green.value_or(1),
        s.compression_across_green.value_or(1), s.shear_along_green.value_or(1)})
    check_positive(reader, "a strength", value);
}
} // namespace

void read_wood(EntryReader &reader, Wood &wood)
{
  read_elastic(reader, wood);
  read_temperature(reader, wood);
  read_creep(reader, wood);
  read_heat(reader, wood);
  read_moisture(reader, wood);
  read_strength(reader, wood);
  const double least =
      WoodLaw(wood).elastic(reference_temperature, reference_moisture).least_relative_minor();
  if (!(least > 0)) {
    std::ostringstream what;
    what << "the compliance is not positive definite (relative minor " << least << ")";
    reader.fail(reader.line(), what.str(), "correct the moduli or Poisson's ratios of this wood");
  }
}
} // namespace overbend::materials
