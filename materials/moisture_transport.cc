// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/moisture_transport.h"

#include "materials/damp_air.h"

#include <algorithm>
#include <cmath>

namespace overbend::materials
{
namespace
{
constexpr double gas_constant = 8.314462618; // J/(mol K), CODATA 2018
constexpr double dry_end = 0.05; // kg/kg, below which the ratio along/across is constant
} // namespace

double diffusion_across(const Wood &wood, double temperature, double moisture)
{
  const double m = std::clamp(moisture, 0., wood.fibre_saturation);
  const double energy = wood.diffusion_energy - wood.diffusion_energy_fall * m;
  return wood.diffusion_12 *
         std::exp(wood.diffusion_slope * (m - reference_moisture) -
                  energy / gas_constant * (1 / temperature - 1 / reference_temperature));
}

double diffusion_along(const Wood &wood, double temperature, double moisture)
{
  const double share = std::clamp((moisture - dry_end) / (wood.fibre_saturation - dry_end), 0., 1.);
  return wood.diffusion_ratio_dry *
         std::pow(wood.diffusion_ratio_damp / wood.diffusion_ratio_dry, share) *
         diffusion_across(wood, temperature, moisture);
}

double surface_emission(const Finish &finish, FilmCondition condition, double temperature,
                        double moisture, double cloth)
{
  const double air = finish.air_emission * std::exp(finish.air_emission_slope * moisture);
  const double film =
      condition == FilmCondition::worn ? finish.film_resistance_worn : finish.film_resistance;
  static const double cold = saturation_pressure(reference_temperature);
  return saturation_pressure(temperature) / cold / (1 / air + film + cloth);
}
} // namespace overbend::materials
