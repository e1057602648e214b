// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/glued_up.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// Stiffness and sideways bending of straight beams glued up from strips, against beam theory.
namespace overbend::tests
{
namespace
{
constexpr double length = 0.8, width = 0.05, thickness = 0.016;

// Follows beam theory: no Poisson's ratio.
materials::Wood plain(double modulus)
{
  return elastic(modulus, modulus, modulus / 2);
}

Beam block(unsigned cells_across)
{
  return strip(length, width, thickness, 16, cells_across);
}

double cube(double a)
{
  return a * a * a;
}

struct Bending
{
  double flat = 0, sideways = 0; // sum E_i I_i, N m^2
};

// Symmetric strips, so that the neutral axis is the middle.
Bending by_hand(const std::vector<GluedStrip> &strips)
{
  Bending sum;
  double y = -width / 2;
  for (const GluedStrip &s : strips) {
    sum.flat += s.wood.E_L * s.width * cube(thickness) / 12;
    sum.sideways += s.wood.E_L * thickness * (cube(y + s.width) - cube(y)) / 3;
    y += s.width;
  }
  return sum;
}

// Moments on the ends by a linear traction; the strips share it out within a width of the ends.
Bending by_solver(const std::vector<GluedStrip> &strips, unsigned cells_across)
{
  Beam beam = block(cells_across);
  glue_up(beam, strips);
  constexpr double slope = 1e8; // Pa/m
  const double flat_moment = slope * width * cube(thickness) / 12,
               side_moment = slope * thickness * cube(width) / 12;
  const auto flat =
      free_displacement(beam, 0, end_load(beam, [](double, double z) { return slope * z; }));
  const auto side =
      free_displacement(beam, 0, end_load(beam, [](double y, double) { return slope * y; }));
  return {flat_moment / std::abs(curvature(beam, flat, 2)),
          side_moment / std::abs(curvature(beam, side, 1))};
}

std::vector<GluedStrip> five(double outer, double inner)
{
  const materials::Wood stiff = plain(16e9), soft = plain(8e9), core = plain(11e9);
  return {{outer, core},
          {inner, stiff},
          {width - 2 * (outer + inner), soft},
          {inner, stiff},
          {outer, core}};
}
} // namespace

// Source: beam theory, E I = sum of E_i I_i of bonded strips. Lines between strips on lines of the
// mesh: what is left are the ends.
TEST(GluedUpBeam, IsAsStiffAsItsStripsTogether)
{
  const auto strips = five(0.010, 0.010);
  const Bending expected = by_hand(strips), got = by_solver(strips, 10);
  constexpr double allowed = 1e-3;
  EXPECT_NEAR(got.flat, expected.flat, allowed * expected.flat);
  report("Five strips of 8, 11 and 16 GPa, bowed up and down", "E I, N m^2", "sum E_i I_i",
         expected.flat, got.flat, allowed * expected.flat);
  EXPECT_NEAR(got.sideways, expected.sideways, allowed * expected.sideways);
  report("Five strips of 8, 11 and 16 GPa, bowed sideways", "E I, N m^2", "sum E_i I_i",
         expected.sideways, got.sideways, allowed * expected.sideways);
}

// Source: beam theory again, with cells of 10 mm as in a neck and lines anywhere in them. Each of
// the four lines may come out a = 8/18 x 5/36 of a cell off (solver/model/strips.h), which changes
// the stiffness by a (E - E') of the strips beside it; the tolerance is the sum of that.
TEST(GluedUpBeam, WithLinesAnywhereInTheCellsIsOffByNoMoreThanItsPointsAllow)
{
  constexpr double misplaced = 8. / 18 * 5 / 36 * width / 5, ends = 1e-3;
  Bending worst, worst_bound;
  for (const double outer : {0.0065, 0.0082, 0.0117, 0.0136})
    for (const double inner : {0.003, 0.0055}) {
      const auto strips = five(outer, inner);
      const Bending expected = by_hand(strips), got = by_solver(strips, 5);
      const double first = width / 2 - outer, second = first - inner;
      const Bending bound{2 * misplaced * (5e9 + 8e9) * cube(thickness) / 12 / expected.flat + ends,
                          2 * misplaced * (5e9 * first * first + 8e9 * second * second) *
                                  thickness / expected.sideways +
                              ends};
      const Bending off{got.flat / expected.flat - 1, got.sideways / expected.sideways - 1};
      std::printf("strips of %.4f and %.4f m: up and down %+.4f, sideways %+.4f\n", outer, inner,
                  off.flat, off.sideways);
      EXPECT_LE(std::abs(off.flat), bound.flat);
      EXPECT_LE(std::abs(off.sideways), bound.sideways);
      worst = {std::max(worst.flat, std::abs(off.flat)),
               std::max(worst.sideways, std::abs(off.sideways))};
      worst_bound = {std::max(worst_bound.flat, bound.flat),
                     std::max(worst_bound.sideways, bound.sideways)};
    }
  report("Thin strips of 8, 11 and 16 GPa across cells of 10 mm, up and down",
         "largest error of E I, share", "sum E_i I_i", 0, worst.flat, worst_bound.flat);
  report("Thin strips of 8, 11 and 16 GPa across cells of 10 mm, sideways",
         "largest error of E I, share", "sum E_i I_i", 0, worst.sideways, worst_bound.sideways);
}

// Source: Timoshenko, Analysis of bi-metal thermostats, 1925, Eq. 4: two strips of widths a1, a2
// and moduli E1, E2, m = a1/a2, n = E1/E2, h = a1 + a2, difference e of the free strains:
//   curvature = 6 e (1 + m)^2 / (h (3 (1 + m)^2 + (1 + m n) (m^2 + 1/(m n))))
TEST(GluedUpBeam, OfTwoStripsThatExpandDifferentlyBendsSideways)
{
  materials::Wood bass = plain(9e9), treble = plain(15e9);
  bass.expansion = {8e-6, 0, 0};
  treble.expansion = {3e-6, 0, 0};
  Beam beam = block(5);
  glue_up(beam, {{0.030, bass}, {0.020, treble}});
  constexpr double warming = 20;
  const auto u = free_displacement(beam, warming, beam.no_load());
  const double m = 0.030 / 0.020, n = 9. / 15;
  const double e = (8e-6 - 3e-6) * warming;
  const double expected = 6 * e * (1 + m) * (1 + m) /
                          (width * (3 * (1 + m) * (1 + m) + (1 + m * n) * (m * m + 1 / (m * n))));
  // The bass strip grows: the middle moves to the bass side, the ends to the treble side.
  const double got = curvature(beam, u, 1);
  constexpr double allowed = 1e-3;
  EXPECT_NEAR(got, expected, allowed * expected);
  report("Two strips of 30 and 20 mm, 9 and 15 GPa, warmed by 20 K", "curvature sideways, 1/m",
         "Timoshenko 1925", expected, got, allowed * expected);
  EXPECT_NEAR(curvature(beam, u, 2), 0, 1e-6 * expected);
}

// Source: the same formula. One strip of a neck swells along the grain three times as much as the
// other, and is half as wide as a cell; the line between them may be 8/18 x 5/36 of a cell off.
TEST(GluedUpBeam, OfAThinStripThatSwellsMoreBendsSideways)
{
  constexpr double thin = 0.005, misplaced = 8. / 18 * 5 / 36 * width / 5;
  materials::Wood wood = plain(12e9);
  wood.swelling_L_dry = wood.swelling_L_damp = 0.01;
  Beam beam = block(5);
  glue_up(beam, {{thin, wood, {}, 3}, {width - thin, wood, {}, 1}}, 0.12);
  const auto u = dried_displacement(beam, 0.12, 0.07);
  const double got = curvature(beam, u, 1);
  const auto timoshenko = [](double strip) {
    const double m = strip / (width - strip), difference = -0.05 * 0.01 * (3 - 1);
    return 6 * difference * (1 + m) * (1 + m) /
           (width * (3 * (1 + m) * (1 + m) + (1 + m) * (m * m + 1 / m)));
  };
  const double expected = timoshenko(thin);
  const double allowed = std::abs(timoshenko(thin + misplaced) - expected) + 1e-3 * -expected;
  EXPECT_NEAR(got, expected, allowed);
  report("Strip of 5 mm beside 45 mm that swells a third as much, dried from 12 to 7 %",
         "curvature sideways, 1/m", "Timoshenko 1925", expected, got, allowed);
}
} // namespace overbend::tests
