// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/damp_air.h"
#include "materials/glue_law.h"
#include "materials/moisture_transport.h"
#include "materials/sorption.h"
#include "tests/law/point.h"

#include <stdexcept>

// Water in air, sorption branches, diffusion, surfaces, and the humidity of a glue line.
namespace overbend::tests
{
using namespace materials;

// Source: steam tables (from memory): 0, 20, 48, 60 and 100 degC; supercooled water at -20 degC.
TEST(DampAir, SaturationPressureIsThatOfTheSteamTables)
{
  const double degrees[] = {-20, 0.01, 20, 48, 60, 100};
  const double pressure[] = {125.4, 611.66, 2339.2, 11176, 19946, 101420};
  for (unsigned n = 0; n < 6; ++n)
    expect("Saturation pressure of water vapour, Pa", std::to_string(int(degrees[n])) + " degC",
           "steam tables (from memory)", pressure[n], saturation_pressure(kelvin(degrees[n])),
           (n == 0 ? 0.01 : 1e-3) * pressure[n]);
}

// Source: the form of Magnus with the constants of Alduchov and Eskridge 1996 (from memory).
TEST(DampAir, DewPointAgreesWithTheFormulaOfMagnus)
{
  const auto magnus = [](double t, double h) {
    const double x = std::log(h) + 17.625 * t / (t + 243.04);
    return 243.04 * x / (17.625 - x);
  };
  for (const double degrees : {-5., 10., 21., 35., 48.})
    for (const double humidity : {0.15, 0.4, 0.65, 0.9}) {
      const double dew = dew_point(kelvin(degrees), humidity);
      expect("Dew point, degC",
             std::to_string(int(degrees)) + " degC, " + std::to_string(int(100 * humidity + 0.5)) +
                 " % humidity",
             "Magnus form (from memory)", magnus(degrees, humidity), dew - 273.15, 0.1);
      EXPECT_NEAR(humidity_from_dew_point(kelvin(degrees), dew), humidity, 1e-10);
    }
  EXPECT_NEAR(dew_point(kelvin(20), 1), kelvin(20), 1e-9);
  EXPECT_THROW(humidity_from_dew_point(kelvin(20), kelvin(21)), std::domain_error);
  EXPECT_THROW(dew_point(kelvin(20), 0), std::domain_error);
  EXPECT_THROW(dew_point(kelvin(-30), 0.1), std::domain_error);
  EXPECT_THROW(saturation_pressure(std::nan("")), std::domain_error);
}

// Source: Wood Handbook Eq. 4-5 and the pressure of vapour kept, worked.
TEST(DampAir, HeatedAirDriesAndWrappedWoodHoldsItsOwn)
{
  const double bare = humidity_after_heating(kelvin(20), 0.5, kelvin(48));
  expect("Room air of 20 degC, 50 % warmed to 48 degC", "humidity, %", "vapour pressure kept", 10,
         100 * bare, 0.6);
  expect("Room air of 20 degC, 50 % warmed to 48 degC", "moisture of wood at rest, %",
         "Wood Handbook Eq. 4-5", 2.2, 100 * equilibrium_moisture(kelvin(48), bare), 0.06);
  expect("Wood of 9.27 % wrapped at 48 degC", "humidity it holds, %", "Wood Handbook Eq. 4-5", 57,
         100 * rest_humidity(kelvin(48), 0.0927), 0.5);
  EXPECT_EQ(humidity_after_heating(kelvin(20), 0.8, kelvin(5)), 1); // water condenses
}

// Source: definition of an inverse.
TEST(Sorption, RestHumidityIsTheInverseOfEquilibrium)
{
  for (const auto branch :
       {SorptionBranch::mean, SorptionBranch::adsorption, SorptionBranch::desorption})
    for (const double degrees : {5., 20., 48., 65.})
      for (const double humidity : {0.02, 0.3, 0.65, 0.95}) {
        const double m = equilibrium_moisture(kelvin(degrees), humidity, branch);
        EXPECT_NEAR(rest_humidity(kelvin(degrees), m, branch), humidity, 1e-10);
      }
  EXPECT_NEAR(rest_humidity(kelvin(20), 0), 0, 1e-12);
  EXPECT_EQ(rest_humidity(kelvin(20), 0.4), 1);
  EXPECT_THROW(rest_humidity(kelvin(20), -0.01), std::domain_error);
}

// Source: ordering known from every sorption experiment: wood that dried holds more than wood that
// took up, and the branches meet at both ends.
TEST(Sorption, DesorptionHoldsMoreThanAdsorptionAndBothRise)
{
  double last_up = -1, last_down = -1;
  for (double h = 0; h <= 1.0001; h += 0.05) {
    const double x = std::min(1., h);
    const double up = equilibrium_moisture(kelvin(20), x, SorptionBranch::adsorption);
    const double down = equilibrium_moisture(kelvin(20), x, SorptionBranch::desorption);
    const double middle = equilibrium_moisture(kelvin(20), x);
    EXPECT_GT(up, last_up);
    EXPECT_GT(down, last_down);
    EXPECT_NEAR((up + down) / 2, middle, 1e-15);
    if (x < 0.95) {
      EXPECT_GE(down, up);
    }
    last_up = up;
    last_down = down;
  }
  expect("Sorption branches at saturation", "adsorption over desorption", "they meet there", 1,
         last_up / last_down, 0.01);
}

// Source: Simpson: eight times from 2.5 to 18 % in aspen at 43 degC; Siau 1984 (from memory): 3.61
// times from 20 to 48 degC at 9 %; along 10 to 15 times across when dry, 2 to 4 near saturation.
TEST(Diffusion, FollowsMoistureTemperatureAndGrainAsPublished)
{
  const Wood &wood = tables().wood("sugar maple");
  const auto across = [&](double degrees, double m) {
    return diffusion_across(wood, kelvin(degrees), m);
  };
  expect("Diffusion across the grain", "18 over 2.5 % at 43 degC", "Simpson", 8,
         across(43.3, 0.18) / across(43.3, 0.025), 0.1);
  expect("Diffusion across the grain", "48 over 20 degC at 9 %", "Siau 1984 (from memory)", 3.61,
         across(48, 0.09) / across(20, 0.09), 0.01);
  expect("Diffusion across the grain", "12 %, 20 degC, 1e-10 m^2/s",
         "VTT 690 (from memory): 0.8 exp(0.48)", 0.8 * std::exp(0.48), 1e10 * across(20, 0.12),
         0.02);
  const auto ratio = [&](double m) {
    return diffusion_along(wood, kelvin(20), m) / diffusion_across(wood, kelvin(20), m);
  };
  expect("Diffusion along over across", "dry", "Siau 1984 (from memory), 10 to 15", 12.5,
         ratio(0.04), 2.5);
  expect("Diffusion along over across", "30 %", "Siau 1984 (from memory), 2 to 4", 3, ratio(0.30),
         1);
  EXPECT_DOUBLE_EQ(across(20, 0.5), across(20, 0.30));
}

// Source: definition: resistances in series; and what a finish is for.
TEST(Surface, FilmsStandInSeriesWithTheAirAndWearLetsMoistureThrough)
{
  const auto emission = [](const char *finish, FilmCondition condition, double degrees = 20) {
    return surface_emission(tables().finish(finish), condition, kelvin(degrees), 0.12);
  };
  expect("Emission of bare wood", "12 %, 20 degC, 1e-8 m/s", "VTT 690 (from memory)",
         3.2 * std::exp(0.48), 1e8 * emission("bare", FilmCondition::sound), 1e-9);
  for (const Finish &f : tables().finishes) {
    const double sound = emission(f.name.c_str(), FilmCondition::sound);
    EXPECT_LE(sound, emission(f.name.c_str(), FilmCondition::worn)) << f.name;
    EXPECT_NEAR(1 / sound - 1 / emission("bare", FilmCondition::sound), f.film_resistance,
                1e-6 * f.film_resistance + 1)
        << f.name;
  }
  // A cloth of 3e7 s/m around bare wood of 12 %, worked: 1/(1/(3.2e-8 e^0.48) + 3e7).
  expect("Emission of bare wood in a wrap of 3e7 s/m", "12 %, 20 degC, 1e-8 m/s",
         "resistances in series", 2.0269,
         1e8 *
             surface_emission(tables().finish("bare"), FilmCondition::sound, kelvin(20), 0.12, 3e7),
         1e-3);
  EXPECT_GT(emission("oil", FilmCondition::sound), 3 * emission("shellac", FilmCondition::sound));
  EXPECT_GT(emission("shellac", FilmCondition::sound), emission("polyester", FilmCondition::sound));
  // Vapour drives: the pressure of saturation, worked for 48 over 20 degC.
  expect("Emission of a finished face", "48 over 20 degC", "vapour pressure", 11176 / 2339.2,
         emission("shellac", FilmCondition::sound, 48) / emission("shellac", FilmCondition::sound),
         0.01);
  for (const char *name : {"bare", "oil", "shellac", "nitro lacquer", "acrylic", "polyester",
                           "polyurethane", "unknown"})
    EXPECT_EQ(tables().finish(name).name, name); // the words of a case file
}

// Source: definition: a line at rest with the room, wet or dry, is the line of constant humidity.
TEST(GlueHumidity, ALineAtRestWithTheRoomIsTheLineOfThatHumidity)
{
  for (const char *name : {"hot hide", "yellow PVA"}) {
    const Glue &glue = tables().glue(name);
    for (const double h : {0.2, 0.45, 0.7, 0.9}) {
      for (const auto branch :
           {SorptionBranch::mean, SorptionBranch::adsorption, SorptionBranch::desorption})
        EXPECT_NEAR(glue_humidity(equilibrium_moisture(kelvin(20), h, branch), branch), h, 2e-4);
      const GlueLaw at_h(glue, 1e-4, h), elsewhere(glue, 1e-4, 0.3);
      const auto a = at_h.prepare(kelvin(30), kelvin(48), 600);
      const auto b = elsewhere.prepare({kelvin(30), h}, {kelvin(48), h}, 600);
      EXPECT_DOUBLE_EQ(a.stiffness, b.stiffness) << name;
      EXPECT_DOUBLE_EQ(at_h.log_shift(kelvin(48)), elsewhere.log_shift(kelvin(48), h)) << name;
    }
    // Damp comes: the line softens within the step.
    const GlueLaw law(glue, 1e-4, 0.45);
    EXPECT_LT(law.prepare({kelvin(48), 0.45}, {kelvin(48), 0.75}, 600).stiffness,
              law.prepare({kelvin(48), 0.45}, {kelvin(48), 0.45}, 600).stiffness)
        << name;
  }
  EXPECT_EQ(glue_humidity(0.5), glue_humidity(0.30));
}

// Source: Wood Handbook Eq. 4-5, worked: wood of 9.27 % (20 degC, 50 %) at 48 degC holds the air
// around it at 57 %.
TEST(GlueHumidity, WarmWoodThatKeepsItsWaterHoldsDamperAir)
{
  expect("Wood of 9.27 % warmed to 48 degC", "humidity that it holds, %", "Wood Handbook Eq. 4-5",
         57, 100 * materials::held_humidity(0.5, kelvin(48)), 0.5);
  double worst = 0, branch_worst = 0, at_kink = 0;
  for (double h = 0.055; h < 0.95; h += 0.0175)
    for (double T = -18.5; T < 109; T += 3.7) {
      const double got = materials::held_humidity(h, kelvin(T));
      const double right = rest_humidity(kelvin(T), equilibrium_moisture(kelvin(20), h));
      // 1e-3 is 0.02 K of softening; at saturation the curve breaks off inside an
      // interval of the table.
      double &error = right > 0.95 ? at_kink : worst;
      error = std::max(error, std::abs(got - right));
      for (const auto branch : {SorptionBranch::adsorption, SorptionBranch::desorption})
        if (T > 0 && T < 70)
          branch_worst = std::max(
              branch_worst,
              std::abs(got - rest_humidity(kelvin(T), equilibrium_moisture(kelvin(20), h, branch),
                                           branch)));
    }
  report("Humidity held by warm wood", "largest error of the table", "its own inverse", 0, worst,
         1e-3);
  EXPECT_LT(worst, 1e-3);
  EXPECT_LT(at_kink, 2e-3);
  std::printf("branches differ by at most %.4f\n", branch_worst);
  EXPECT_LT(branch_worst, 0.01);
  EXPECT_NEAR(materials::held_humidity(0.37, kelvin(20)), 0.37, 1e-9);
}

// Source: estimates (tables): 20 K for the whole of humidity; animal glue keeps its water.
TEST(GlueHumidity, WarmPolyvinylAcetateSoftensByTheWoodsDamperAirAndHideGlueDoesNot)
{
  const Glue &white = tables().glue("white PVA"), &hide = tables().glue("hot hide");
  // At its own softening point: 32 degC less 20 K of what 50 % become there.
  const double there = kelvin(32) - 20 * (materials::held_humidity(0.5, kelvin(31.5)) - 0.5);
  expect("Softening of white glue in wood at rest with 50 %", "degC", "worked (estimate)",
         there - 273.15, softening_temperature(white, 0.5) - 273.15, 0.02);
  // At 55 degC it is as a glue that softens 1.8 K lower.
  Glue lower = white;
  lower.softening -= 20 * (materials::held_humidity(0.5, kelvin(55)) - 0.5);
  lower.softening_slope = 0;
  EXPECT_NEAR(GlueLaw(white, 1e-4, 0.5).log_shift(kelvin(55)),
              GlueLaw(lower, 1e-4, 0.5).log_shift(kelvin(55)), 1e-9);
  EXPECT_NEAR(white.softening - lower.softening, 1.8, 0.1);
  Glue dry = hide;
  const double Tg = softening_temperature(hide, 0.7), T = kelvin(60), above = T - Tg;
  EXPECT_NEAR(GlueLaw(dry, 1e-4, 0.7).log_shift(T),
              std::log(10.) * hide.wlf_c1 * above / (hide.wlf_c2 + above), 1e-9);
}

// Source: a published point (gelatin with 25 % water softens at 25 degC) carried over moisture by
// Gordon and Taylor; estimate: at 48 degC a line in wood of 8 % holds, in wood of 13 % it is soft.
TEST(GlueHumidity, HideGlueHoldsDryAndSoftensDampAt48Degrees)
{
  const auto against = [&](double moisture) {
    return kelvin(48) - softening_temperature(tables().glue("hot hide"), glue_humidity(moisture));
  };
  expect("Hide glue at 48 degC", "K below softening, wood at rest with 45 %",
         "Gordon and Taylor, worked (estimate)", -35,
         against(equilibrium_moisture(kelvin(20), 0.45)), 8);
  expect("Hide glue at 48 degC", "K below softening, wood at rest with 70 %",
         "Gordon and Taylor, worked (estimate)", 0, against(equilibrium_moisture(kelvin(20), 0.70)),
         8);
}
} // namespace overbend::tests
