// SPDX-License-Identifier: GPL-3.0-or-later
// What moisture does to wood, and how it moves: the numbers of a wood's entry.
#include "materials/table_reader.h"
#include "materials/wood_law.h"

namespace overbend::materials
{
namespace
{
constexpr const char *direction[n_directions] = {"LL", "RR", "TT", "RT", "LT", "LR"};

void check(const EntryReader &reader, bool holds, const std::string &what)
{
  if (!holds)
    reader.fail(reader.line(), what, "correct it");
}

void read_sorptive_creep(EntryReader &reader, Wood &w)
{
  w.sorptive_moisture = reader.common_list("sorptive_moisture", "%");
  const std::size_t n = w.sorptive_moisture.size();
  check(reader, n <= max_sorptive,
        "there are more mechano-sorptive elements than " + std::to_string(max_sorptive));
  w.sorptive_share.resize(n);
  for (unsigned a = 0; a < n_directions; ++a) {
    const std::string key = std::string("sorptive_") + direction[a];
    const std::vector<double> share = reader.common_list(key, "1");
    check(reader, share.size() == n, "`" + key + "` and sorptive_moisture do not belong together");
    for (std::size_t j = 0; j < n; ++j) {
      check(reader, share[j] >= 0, "`" + key + "` has a negative share");
      w.sorptive_share[j][a] = share[j];
    }
    w.drying_set[a] = reader.common_number(std::string("drying_set_") + direction[a], "1");
    check(reader, w.drying_set[a] >= 0, "a drying set is negative");
  }
  for (const double moisture : w.sorptive_moisture)
    check(reader, moisture > 0, "`sorptive_moisture` is not positive");
}

void read_swelling(EntryReader &reader, Wood &w)
{
  w.swelling_L_dry = reader.common_number("swelling_L_dry", "1");
  w.swelling_L_damp = reader.common_number("swelling_L_damp", "1");
  w.swelling_knee = reader.common_number("swelling_knee", "%");
  w.swelling_strain_factor = reader.common_number("swelling_strain_factor", "1");
  check(reader, w.swelling_strain_factor >= 0, "`swelling_strain_factor` is negative");
  w.kiln_moisture = reader.common_number("kiln_moisture", "%");
  check(reader, w.kiln_moisture > 0, "`kiln_moisture` is not positive");
  check(reader, w.swelling_knee >= 0 && w.swelling_knee < w.fibre_saturation,
        "`swelling_knee` is not below fibre saturation");
}

void read_diffusion(EntryReader &reader, Wood &w)
{
  w.diffusion_12 =
      reader.common_number("diffusion_factor", "1") * reader.common_number("diffusion_12", "m^2/s");
  w.diffusion_slope = reader.common_number("diffusion_slope", "1");
  w.diffusion_energy = reader.common_number("diffusion_energy", "kJ/mol");
  w.diffusion_energy_fall = reader.common_number("diffusion_energy_fall", "kJ/mol");
  w.diffusion_ratio_dry = reader.common_number("diffusion_ratio_dry", "1");
  w.diffusion_ratio_damp = reader.common_number("diffusion_ratio_damp", "1");
  check(reader,
        w.diffusion_12 > 0 && w.diffusion_slope >= 0 && w.diffusion_ratio_dry > 0 &&
            w.diffusion_ratio_damp > 0 &&
            w.diffusion_energy >= w.diffusion_energy_fall * w.fibre_saturation,
        "a diffusion number is not positive");
}
} // namespace

void read_moisture(EntryReader &reader, Wood &w)
{
  w.creep_moisture_gain = reader.common_number("creep_moisture_gain", "1");
  w.creep_moisture_middle = reader.common_number("creep_moisture_middle", "%");
  w.creep_moisture_width = reader.common_number("creep_moisture_width", "%");
  check(reader, w.creep_moisture_gain >= 0 && w.creep_moisture_width > 0,
        "the creep shift with moisture is not positive");
  read_sorptive_creep(reader, w);
  read_swelling(reader, w);
  read_diffusion(reader, w);
}
} // namespace overbend::materials
