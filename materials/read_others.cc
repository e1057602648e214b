// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/glue_law.h"
#include "materials/table_reader.h"
#include "materials/wood_law.h"

#include <cmath>

namespace overbend::materials
{
namespace
{
void check_positive(const EntryReader &reader, const std::string &what,
                    const std::vector<double> &values)
{
  for (const double value : values)
    if (!(value > 0))
      reader.fail(reader.line(), "`" + what + "` is not positive", "correct it");
}

double positive(EntryReader &reader, const std::string &key, const std::string &unit)
{
  const double value = reader.number(key, unit);
  check_positive(reader, key, {value});
  return value;
}

void read_softening(EntryReader &reader, Glue &g)
{
  g.animal = reader.has("gordon_taylor");
  if (!g.animal) {
    g.softening = positive(reader, "softening", "degC");
    g.softening_slope = reader.common_number("humidity_slope", "K");
    return;
  }
  g.dry_softening = positive(reader, "dry_softening", "K");
  g.water_softening = positive(reader, "water_softening", "K");
  g.gordon_taylor = positive(reader, "gordon_taylor", "1");
  g.water_at_45 = positive(reader, "water_at_45", "%");
  g.water_at_70 = positive(reader, "water_at_70", "%");
}

void read_thickness(EntryReader &reader, Glue &g)
{
  constexpr double mm = 1e-3;
  g.thickness = reader.common_number("line_thickness", "mm");
  const auto range = g.number("line_thickness").range;
  if (!(g.thickness > 0) || !range || !(range->first > 0))
    reader.fail(reader.line(), "`line_thickness` is not positive, or has no range",
                "give range = [thinnest, thickest]");
  g.thinnest = range->first * mm;
  g.thickest = range->second * mm;
}
} // namespace

void read_glue(EntryReader &reader, Glue &g)
{
  g.branch_modulus = reader.list("branch_modulus", "MPa");
  g.branch_time = reader.list("branch_time", "s");
  if (g.branch_modulus.size() != g.branch_time.size() || g.branch_time.size() > max_branches)
    reader.fail(reader.line(), "branch_modulus and branch_time do not belong together",
                "give the same number of both, at most " + std::to_string(max_branches));
  check_positive(reader, "branch_modulus", g.branch_modulus);
  check_positive(reader, "branch_time", g.branch_time);
  g.plateau = reader.number("plateau", "MPa");
  if (g.plateau < 0)
    reader.fail(reader.line(), "`plateau` is negative", "give 0 for a glue that flows");
  g.bulk_modulus = reader.common_number("bulk_modulus", "GPa");
  g.water_conductance = reader.common_number("water_conductance", "kg/(m^2 s)");
  g.wlf_c1 = reader.common_number("wlf_c1", "1");
  g.wlf_c2 = reader.common_number("wlf_c2", "K");
  g.activation_energy = reader.common_number("activation_energy", "kJ/mol");
  check_positive(reader, "bulk_modulus, water_conductance, wlf_c1, wlf_c2 or activation_energy",
                 {g.bulk_modulus, g.water_conductance, g.wlf_c1, g.wlf_c2, g.activation_energy});
  read_softening(reader, g);
  g.time_scale_decades = positive(reader, "time_scale", "decades");
  g.softening_spread = positive(reader, "softening_spread", "K");
  read_thickness(reader, g);
  g.strength_cold = positive(reader, "strength_cold", "MPa");
  g.strength_hot = positive(reader, "strength_hot", "MPa");
  g.strength_hot_temperature = positive(reader, "strength_hot_temperature", "degC");
  g.temperature_limit = positive(reader, "temperature_limit", "degC");
  if (g.strength_hot_temperature <= reference_temperature)
    reader.fail(reader.line(), "`strength_hot_temperature` is not above 20 degC", "correct it");
}

void read_bar(EntryReader &reader, Bar &b)
{
  b.modulus = positive(reader, "modulus", "GPa");
  b.modulus_across = positive(reader, "modulus_across", "GPa");
  b.shear_modulus = positive(reader, "shear_modulus", "GPa");
  b.poisson = reader.number("poisson", "1");
  b.expansion = reader.number("expansion", "1e-6/K");
  b.expansion_across = reader.number("expansion_across", "1e-6/K");
  b.conductivity = positive(reader, "conductivity", "W/(m K)");
  b.density = positive(reader, "density", "kg/m^3");
  b.heat_capacity = positive(reader, "heat_capacity", "J/(kg K)");
  const Compliance s = WoodLaw(as_piece(b)).elastic(reference_temperature, reference_moisture);
  if (!(s.least_relative_minor() > 0))
    reader.fail(reader.line(), "the compliance is not positive definite",
                "correct the moduli or Poisson's ratio of this bar");
}

void read_string_set(EntryReader &reader, StringSet &set)
{
  const std::vector<double> mass = reader.list("mass", "kg/m");
  const std::vector<double> note = reader.list("note", "note");
  if (mass.size() != note.size())
    reader.fail(reader.line(), "mass and note do not belong together", "give the same number");
  check_positive(reader, "mass", mass);
  for (std::size_t i = 0; i < mass.size(); ++i)
    set.strings.push_back({mass[i], 440 * std::exp2((note[i] - 69) / 12)});
}

void read_tuner(EntryReader &reader, Tuner &t)
{
  t.post_diameter = positive(reader, "post_diameter", "mm");
  t.ratio = positive(reader, "ratio", "1");
  t.kind = static_cast<TunerKind>(reader.choice("kind", {"worm", "roller", "small", "peg"}));
  t.caution_share = reader.common_number("caution_share", "1");
  t.refuse_share = reader.common_number("refuse_share", "1");
  if (!(t.caution_share >= 1 && t.refuse_share >= t.caution_share))
    reader.fail(reader.line(),
                "a tuner is refused before it is cautioned, or below what the set "
                "pulls every day",
                "correct caution_share and refuse_share");
  t.side_floor = t.kind == TunerKind::worm ? positive(reader, "side_floor", "N") : 0;
  t.along_limit = positive(reader, "along_limit", "N");
}

void read_finish(EntryReader &reader, Finish &f)
{
  f.film_resistance = reader.number("film_resistance", "s/m");
  f.film_resistance_worn = reader.number("film_resistance_worn", "s/m");
  f.air_emission = reader.common_number("air_emission", "m/s");
  f.air_emission_slope = reader.common_number("air_emission_slope", "1");
  check_positive(reader, "air_emission", {f.air_emission});
  if (!(f.film_resistance_worn >= 0 && f.film_resistance_worn <= f.film_resistance))
    reader.fail(reader.line(), "the worn film resists more than the sound one, or less than none",
                "correct film_resistance and film_resistance_worn");
  f.prints_from = positive(reader, "prints_from", "degC");
  f.keep_below = positive(reader, "keep_below", "degC");
  if (f.keep_below < f.prints_from)
    reader.fail(reader.line(), "a finish is to be kept below a heat that does not even print it",
                "correct prints_from and keep_below");
}

void read_limits(EntryReader &reader, WorkLimits &l)
{
  l.hottest = positive(reader, "hottest", "degC");
  l.hottest_unknown = positive(reader, "hottest_unknown", "degC");
  l.line_known = positive(reader, "line_known", "degC");
  l.line_unknown = positive(reader, "line_unknown", "degC");
  l.surface_known = positive(reader, "surface_known", "degC");
  l.fret_tops_known = positive(reader, "fret_tops_known", "degC");
  l.kept_an_hour = positive(reader, "kept_an_hour", "1");
  l.least_strung = reader.number("least_strung", "mm");
  l.rod_forward = positive(reader, "rod_forward", "mm");
  l.condition_humidity = positive(reader, "condition_humidity", "1");
  l.plastic_softens = positive(reader, "plastic_softens", "degC");
  l.overbend = positive(reader, "overbend", "mm");
  l.overbend_long = positive(reader, "overbend_long", "mm");
  l.long_scale = positive(reader, "long_scale", "mm");
  l.wood_use_caution = positive(reader, "wood_use_caution", "1");
  l.wood_use_refuse = positive(reader, "wood_use_refuse", "1");
  l.bond_use_caution = positive(reader, "bond_use_caution", "1");
  l.bond_use_hot = positive(reader, "bond_use_hot", "1");
  l.bond_hot_time = positive(reader, "bond_hot_time", "min");
  l.least_bow = positive(reader, "least_bow", "mm");
  l.least_twist = positive(reader, "least_twist", "deg");
  l.bow_miss = positive(reader, "bow_miss", "mm");
  l.twist_miss = positive(reader, "twist_miss", "deg");
  l.over_bridge_error = positive(reader, "over_bridge_error", "mm");
  l.least_lift = positive(reader, "least_lift", "mm");
  l.stiffness_doubt = positive(reader, "stiffness_doubt", "1");
  l.stiffness_least = positive(reader, "stiffness_least", "1");
  l.stiffness_most = positive(reader, "stiffness_most", "1");
  l.least_kept = positive(reader, "least_kept", "1");
  l.much_in_the_wood = positive(reader, "much_in_the_wood", "1");
  if (l.wood_use_refuse > 1 || l.wood_use_caution > l.wood_use_refuse ||
      l.bond_use_caution > l.bond_use_hot || l.bond_use_hot > l.wood_use_refuse ||
      l.hottest_unknown > l.hottest || l.line_unknown > l.line_known || l.line_known > l.hottest)
    reader.fail(reader.line(), "a limit lies beyond the one that it has to come before",
                "correct the shares of strength or the heats");
}
} // namespace overbend::materials
