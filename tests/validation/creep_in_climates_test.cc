// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/damp_air.h"
#include "materials/moisture_transport.h"
#include "materials/sorption.h"
#include "tests/law/point.h"
#include "tests/validation/beam_section.h"

#include <algorithm>
#include <complex>

// Creep of beams in real climates, on the ground on which it was published: a section of timber,
// wetted and dried through its faces by the weather of a northern coast.
namespace overbend::tests
{
namespace
{
constexpr double year = 365.25 * day;

// Means of the months of Helsinki, degC and percent: from memory of weather normals, to a degree
// and some five percent.
constexpr double degrees[12] = {-4, -5, -1, 4, 10, 15, 18, 16, 11, 6, 1, -2};
constexpr double percent[12] = {88, 86, 80, 71, 64, 67, 71, 76, 82, 85, 89, 90};

// Under a roof without walls. Straight between the middles of the months.
Weather sheltered(double time)
{
  const double months = time / year * 12 - 0.5, in_year = months - 12 * std::floor(months / 12);
  const unsigned i = unsigned(in_year), next = (i + 1) % 12;
  const double share = in_year - i;
  return {kelvin((1 - share) * degrees[i] + share * degrees[next]),
          ((1 - share) * percent[i] + share * percent[next]) / 100};
}

// A heated room, 21 degC, or as warm as the summer outside; with the water of the air outside and
// 540 Pa more from those who use it, less in warm weather (EN ISO 13788, class of dry rooms, from
// memory).
Weather heated(double time)
{
  const Weather outside = sheltered(time);
  const double T = std::max(kelvin(21), outside.temperature);
  const double share = std::clamp((kelvin(20) - outside.temperature) / 20, 0., 1.);
  const double water =
      outside.humidity * materials::saturation_pressure(outside.temperature) + 540 * share;
  return {T, std::min(1., water / materials::saturation_pressure(T))};
}

struct Place
{
  const char *name;
  Weather (*air)(double);
};
constexpr Place places[] = {{"under a roof", sheltered}, {"heated room", heated}};
} // namespace

// Source: Ranta-Maunus 2000 (read in an abstract): 0.3 to 1.0 after seven to eight years in real
// climates, 0.6 untreated at the lowest load. The limit of mechano-sorption along the grain, 0.45,
// was chosen so that these rows hold (see woods.toml); Toratti's own 0.7 goes past the band, which
// the next test shows. So these rows prove that the number is within what was measured, not that
// the law foretold it.
TEST(CreepInClimates, OfABeamIsWithinWhatWasMeasuredInEightYears)
{
  const materials::Wood &wood = materials::tables().wood("Norway spruce");
  for (const Place &place : places)
    for (const double depth : {0.045, 0.090})
      for (const double loaded : {0.3, 0.8}) { // of a year: damp or dry to begin with
        BeamSection section(wood, depth, place.air, loaded * year);
        section.load(7 * MPa);
        const double elastic = section.curvature();
        section.follow(8 * year);
        expect("Creep of a beam in 8 years, share of the elastic bend",
               std::string(place.name) + ", " + std::to_string(int(std::round(1e3 * depth))) +
                   " mm deep, loaded in " + (loaded < 0.5 ? "April" : "October"),
               "Ranta-Maunus 2000, real climates", 0.65, section.curvature() / elastic - 1, 0.35);
        // The water goes through: without it this would be another test.
        EXPECT_GT(section.dampest_mean() - section.driest_mean(), 0.01);
      }
}

// The same with the numbers of Toratti 1992 (from memory): 0.7 within 40 % of moisture.
TEST(CreepInClimates, WithTheLimitRememberedFromTorattiABeamWouldCreepTooMuch)
{
  materials::Wood wood = materials::tables().wood("Norway spruce");
  for (auto &share : wood.sorptive_share)
    share[0] *= 0.7 / 0.45;
  wood.sorptive_moisture[2] = 0.40;
  BeamSection section(wood, 0.045, sheltered, 0.3 * year);
  section.load(7 * MPa);
  const double elastic = section.curvature();
  section.follow(8 * year);
  EXPECT_GT(section.curvature() / elastic - 1, 1.0);
}

// Source: a wave of a year on the faces of a slab (Carslaw and Jaeger's, with a film): the share of
// the faces' swing that the mean follows, tanh(q l)/(q l) over 1 + (D q/S) tanh(q l) with
// q = (1 + i) sqrt(omega/2 D); here with D and S of its mean moisture.
TEST(CreepInClimates, TheSectionsMeanFollowsTheYearAsASlabDoes)
{
  const auto air = [](double time) {
    return Weather{kelvin(20), 0.5 + 0.05 * std::cos(2 * std::acos(-1.) * time / year)};
  };
  const materials::Wood &wood = materials::tables().wood("Norway spruce");
  BeamSection section(wood, 0.090, air, 0);
  section.load(0);
  section.follow(year);
  const double half = 0.045, T = kelvin(20), m = materials::equilibrium_moisture(T, 0.5);
  const double D = materials::diffusion_across(wood, T, m);
  const double S = materials::surface_emission(materials::tables().finish("bare"),
                                               materials::FilmCondition::sound, T, m);
  const std::complex<double> q =
      std::complex<double>(1, 1) * std::sqrt(2 * std::acos(-1.) / year / (2 * D));
  const double share =
      std::abs(std::tanh(q * half) / (q * half) / (1. + D * q / S * std::tanh(q * half)));
  const double swing =
      materials::equilibrium_moisture(T, 0.55) - materials::equilibrium_moisture(T, 0.45);
  expect("A section of 90 mm in a yearly wave of 45 to 55 % humidity",
         "swing of its mean over its faces'", "periodic slab with a film", share,
         (section.dampest_mean() - section.driest_mean()) / swing, 0.02);
}
} // namespace overbend::tests
