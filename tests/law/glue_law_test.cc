// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/glue_law.h"
#include "tests/law/point.h"

namespace overbend::tests
{
namespace
{
using materials::GlueLaw;
using materials::GlueState;
using materials::LineSpeed;
using materials::Vector2;

constexpr double thickness = 0.1e-3;
constexpr double year = 365.25 * day;

GlueLaw law_of(const std::string &name, double humidity = 0.5, LineSpeed speed = LineSpeed::middle)
{
  return GlueLaw(materials::at_speed(materials::tables().glue(name), speed), thickness, humidity);
}

// Shear-lag theory of two layers joined by a soft layer (Newmark, Siess and Viest 1951; Granholm
// 1949): bending stiffness of the whole under a constant moment, ends free. Layers of maple 16 mm
// and rosewood 6 mm, 50 mm wide, 460 mm long.
struct Layers
{
  static constexpr double width = 0.05, length = 0.46;
  static constexpr double E1 = 13.86e9, t1 = 16e-3, E2 = 12.65e9, t2 = 6e-3;
  double loose = width * (E1 * t1 * t1 * t1 + E2 * t2 * t2 * t2) / 12; // N m^2
  double lever = (t1 + t2) / 2;
  double EA = width * (E1 * t1) * (E2 * t2) / (E1 * t1 + E2 * t2);
  double bonded = loose + lever * lever * EA;

  // Deflection in the middle for a moment M, m.
  double deflection(double G, double M) const
  {
    const double square = G * width / thickness * (1 / EA + lever * lever / loose);
    const double x = std::sqrt(square) * length / 2;
    // The limit for a very soft line, where 1 - sech loses all digits.
    const double part = x < 1e-3 ? length * length / 8 : (1 - 1 / std::cosh(x)) / square;
    return M * length * length / 8 / bonded + M * (1 / loose - 1 / bonded) * part;
  }

  // Share of complete slip that remains if the line is as soft as G and then hardens.
  double share_of_slip(double G) const
  {
    const double stiffness = length * length / 8 / deflection(G, 1);
    return (1 - stiffness / bonded) / (1 - loose / bonded);
  }
};

double slip(const GlueLaw &law, double degrees, double time)
{
  return Layers().share_of_slip(law.relaxation_modulus(kelvin(degrees), time));
}
} // namespace

// Source: Newmark, Siess and Viest 1951, worked value for G 0.1 MPa and M 10 N m.
TEST(GlueLaw, ShearLagCurveOfTheAnchorsIsThePublishedOne)
{
  const Layers layers;
  expect("Shear-lag curve", "deflection, mm", "Newmark et al. 1951", 0.766039,
         1e3 * layers.deflection(0.1 * MPa, 10), 1e-6);
  const double G[] = {10, 1, 0.3, 0.1, 0.03, 0.01}, kept[] = {1.2, 11, 26, 41, 52, 56};
  for (unsigned n = 0; n < 6; ++n)
    expect("Shear-lag curve", "retained set, %, G " + std::to_string(G[n]) + " MPa",
           "Newmark et al. 1951", kept[n],
           100 * layers.share_of_slip(G[n] * MPa) * (1 - layers.loose / layers.bonded), 0.5);
}

// Source: generalised Maxwell solid under a step of slip, G(t) = G_inf + sum G_k e^(-a t/tau_k),
// with the law of Williams, Landel and Ferry above softening and Arrhenius below, written out here.
TEST(GlueLaw, StepsRelaxLikeTheMaxwellSolidAtTwoTemperatures)
{
  const materials::Glue glue = materials::tables().glue("white PVA");
  const GlueLaw law(glue, thickness, 0.5);
  const double a48 = std::pow(10, 17.4 * 16 / (51.6 + 16));
  const double a25 = std::exp(-300e3 / 8.314462618 * (1 / 298.15 - 1 / 305.15));
  for (const auto &[degrees, a] : {std::pair(48., a48), std::pair(25., a25)}) {
    GlueState state;
    const double T = kelvin(degrees), jump = 1e-6;
    law.finish(state, law.prepare(T, T, 0), {jump, 0});
    double time = 0;
    for (const double dt : {1., 9., 90., 900., 6200.}) {
      const auto step = law.prepare(T, T, dt);
      const double traction = step.stiffness * jump + law.history(state, step)[0];
      law.finish(state, step, {jump, 0});
      time += dt;
      double G = glue.plateau;
      for (std::size_t k = 0; k < glue.branch_time.size(); ++k)
        G += glue.branch_modulus[k] * std::exp(-a * time / glue.branch_time[k]);
      expect("Relaxation of the glue line at " + std::to_string(int(degrees)) + " degC",
             "G after " + std::to_string(int(time)) + " s, MPa", "generalised Maxwell, closed form",
             G / MPa, traction * thickness / jump / MPa, 1e-9 * G / MPa);
      EXPECT_NEAR(law.traction(state)[0], traction, 1e-9 * traction);
    }
  }
}

// Source: common practice of the trade, no source: necks on the wall stay straight, 48 degC moves
// them, 60 degC lets the board slide; hard glues do not move.
TEST(GlueLaw, SlipMeetsTheAnchorsOfTheTrade)
{
  const std::string what = "Anchors of the glue line, share of complete slip";
  const auto within = [&](const std::string &name, double humidity, double degrees, double time,
                          double low, double high) {
    const double got = slip(law_of(name, humidity), degrees, time);
    const std::string quantity = name + ", " + std::to_string(int(100 * humidity)) + " % RH, " +
                                 std::to_string(int(degrees)) + " degC, " +
                                 (time > day ? "1 year" : "2 h");
    report(what, quantity, "common practice, no source", (low + high) / 2, got, (high - low) / 2);
    EXPECT_GE(got, low) << quantity;
    EXPECT_LE(got, high) << quantity;
  };
  for (const std::string name : {"white PVA", "yellow PVA"}) {
    within(name, 0.5, 25, year, 0, 0.05);
    within(name, 0.5, 48, 2 * hour, 0.10, 0.50);
    within(name, 0.5, 60, 2 * hour, 0.85, 1);
  }
  for (const std::string name : {"epoxy", "urea-formaldehyde", "resorcinol", "one piece"})
    within(name, 0.5, 48, 2 * hour, 0, 0.02);
  for (const double humidity : {0.35, 0.45}) // dry
    within("hot hide", humidity, 48, 2 * hour, 0, 0.02);
}

// Source: an estimate from the polymer literature (from memory): plateau about 0.36 MPa, terminal
// time about 3.5e5 s at 48 degC and 3.5e3 s at 60 degC.
TEST(GlueLaw, WhiteGlueFollowsTheEstimateOfItsFlow)
{
  const materials::Glue &glue = materials::tables().glue("white PVA");
  const GlueLaw law(glue, thickness, 0.5);
  const std::string what = "Flow of white polyvinyl acetate", source = "estimate, from memory";
  const auto time = [&](double degrees) {
    return glue.branch_time.back() / std::exp(law.log_shift(kelvin(degrees)));
  };
  expect(what, "plateau, MPa", source, 0.36, glue.branch_modulus.back() / MPa, 0.06);
  expect(what, "log10 of the terminal time at 48 degC", source, std::log10(3.5e5),
         std::log10(time(48)), 0.1);
  expect(what, "log10 of the terminal time at 60 degC", source, std::log10(3.5e3),
         std::log10(time(60)), 0.1);
}

// Source: the meaning of the three columns: a slower line slips less.
TEST(GlueLaw, SlowMiddleAndFastLinesAreADecadeApart)
{
  for (const materials::Glue &glue : materials::tables().glues) {
    const GlueLaw slow = law_of(glue.name, 0.5, LineSpeed::slow);
    const GlueLaw middle = law_of(glue.name), fast = law_of(glue.name, 0.5, LineSpeed::fast);
    const double factor = std::pow(10, glue.time_scale_decades);
    const double G = middle.relaxation_modulus(kelvin(48), 7200);
    EXPECT_NEAR(slow.relaxation_modulus(kelvin(48), 7200 * factor), G, 1e-9 * G);
    EXPECT_NEAR(fast.relaxation_modulus(kelvin(48), 7200 / factor), G, 1e-9 * G);
  }
}

// Source: Gordon-Taylor with 470 K, 136 K and k 3.19, laid through 25 % water at 25 degC
// (Yakimets et al. 2005); worked table of softening against water.
TEST(GlueLaw, AnimalGlueSoftensWithTheWaterInIt)
{
  materials::Glue glue = materials::tables().glue("hot hide");
  const double water[] = {0.10, 0.12, 0.14, 0.16, 0.18, 0.20, 0.22, 0.25};
  const double celsius[] = {110, 96, 83, 71, 59, 49, 39, 25};
  for (unsigned n = 0; n < 8; ++n) {
    glue.water_at_45 = glue.water_at_70 = water[n];
    expect("Softening of animal glue",
           "at " + std::to_string(int(100 * water[n] + 0.5)) + " % water, degC", "Gordon-Taylor",
           celsius[n], materials::softening_temperature(glue, 0.5) - 273.15, 0.6);
  }
  // At 45 % humidity the line is some 35 K below softening when it is at 48 degC, at 70 % it is at
  // it.
  expect("Softening of animal glue", "at 45 % humidity, degC", "estimate, no source", 83,
         law_of("hot hide", 0.45).softening_temperature() - 273.15, 1);
  expect("Softening of animal glue", "at 70 % humidity, degC", "estimate, no source", 48.5,
         law_of("hot hide", 0.70).softening_temperature() - 273.15, 1);
}

// Source: definition of the shift: both branches are 0 at softening, faster above and slower below.
TEST(GlueLaw, ShiftIsContinuousAtSoftening)
{
  for (const materials::Glue &glue : materials::tables().glues) {
    const GlueLaw law(glue, thickness, 0.5);
    const double Tg = law.softening_temperature();
    EXPECT_NEAR(law.log_shift(Tg + 1e-6), 0, 1e-5) << glue.name;
    EXPECT_NEAR(law.log_shift(Tg - 1e-6), 0, 1e-5) << glue.name;
    EXPECT_GT(law.log_shift(Tg + 1), 0) << glue.name;
    EXPECT_LT(law.log_shift(Tg - 1), 0) << glue.name;
  }
}

// Source: the layer is confined: only shear relaxes, (K + 4/3 G)/t stays; K 3 GPa, an estimate.
TEST(GlueLaw, NormalStiffnessIsThatOfTheConfinedGlass)
{
  const GlueLaw law = law_of("white PVA");
  EXPECT_NEAR(law.normal_stiffness(), (3e9 + 4. / 3 * law.glass_modulus()) / thickness, 1);
}

// Source: bond strength by makers' sheets, from memory: yellow glue falls to about 11 MPa at 66
// degC.
TEST(GlueLaw, BondWeakensWithHeatAndNeverTurnsNegative)
{
  const materials::Glue &glue = materials::tables().glue("yellow PVA");
  expect("Bond of yellow polyvinyl acetate", "shear strength at 66 degC, MPa",
         "makers' sheets, from memory", 11, materials::bond_strength(glue, kelvin(66)) / MPa, 1);
  EXPECT_EQ(materials::bond_strength(glue, kelvin(5)), materials::bond_strength(glue, kelvin(20)));
  EXPECT_EQ(materials::bond_strength(glue, kelvin(300)), 0);
}
} // namespace overbend::tests
