// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/table_entry.h"

// A glue of the table, in SI, and its spread.
namespace overbend::materials
{
// A glue as a layer: generalised Maxwell in shear, times at the softening temperature.
struct Glue : Entry
{
  std::vector<double> branch_modulus; // Pa
  std::vector<double> branch_time;    // s, at the softening temperature
  double plateau = 0;                 // G_inf, Pa: 0 for a glue that flows
  double bulk_modulus = 0;            // Pa
  double water_conductance = 0;       // kg/(m^2 s) for a difference of moisture content of 1
  double wlf_c1 = 0, wlf_c2 = 0;      // -, K (decimal logarithm)
  double activation_energy = 0;       // J/mol, below the softening temperature

  // Softening temperature, K. Either fixed at 50 % relative humidity with a slope (K per unit of
  // humidity), or by the Gordon-Taylor rule from the water in the glue (animal glues).
  double softening = 0;
  double softening_slope = 0;
  bool animal = false;
  double dry_softening = 0;                // K
  double water_softening = 0;              // K
  double gordon_taylor = 0;                // k
  double water_at_45 = 0, water_at_70 = 0; // mass fraction of water at 45 % and 70 % humidity

  // Uncertainty of the whole time scale (decimal decades each way), of softening (K each way), and
  // of the thickness of a line that nobody can measure (m).
  double time_scale_decades = 0;
  double softening_spread = 0;
  double thickness = 0, thinnest = 0, thickest = 0;
  // Set by at_speed(): on all branch times, and K on the softening temperature.
  double time_factor = 1, softening_shift = 0;

  double strength_cold = 0;            // bond in shear at 20 degC, Pa
  double strength_hot = 0;             // at strength_hot_temperature, Pa
  double strength_hot_temperature = 0; // K
  double temperature_limit = 0;        // K, of the line at the bench
};

// The three columns of a plan. A fast line has its time scale, its softening temperature and its
// thickness all at the end of their spread where it slips more, a slow one at the other: what
// at_speed() returns has the first two, and line_thickness() is that of a line told or taken to be
// `thickness` thick. Ends of three spreads at once: together they go beyond what the anchors of
// glues.toml let a single line do (tests/law), so they bound a neck and describe none.
enum class LineSpeed { slow, middle, fast };

// Place of a line within its spread: -1 slow, 0 middle, 1 fast, and any line between them. A line
// that was read after a pass has one of its own.
double place_in_spread(LineSpeed speed);

// `place` from -1 to 1: time scale 10^(-place decades), softening lower by place times its spread.
Glue at_speed(const Glue &glue, double place);
Glue at_speed(const Glue &glue, LineSpeed speed);

// Thickness (m) of a line told or taken to be `thickness` thick, in geometric steps to its ends.
double line_thickness(const Glue &glue, double thickness, double place);
double line_thickness(const Glue &glue, double thickness, LineSpeed speed);
} // namespace overbend::materials
