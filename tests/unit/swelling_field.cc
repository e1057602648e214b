// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/swelling_field.h"
#include "solver/model/model.h"

#include "mesh/names.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>

// The random factor on the swelling along the grain against what it is defined to be.
namespace
{
using namespace overbend;
using solver::SwellingField;
using solver::Vec3;

constexpr std::array<double, 3> lengths = {0.2, 0.015, 0.015};

struct Statistics
{
  double mean = 0, variation = 0, correlation = 0, least = 1e300; // correlation of the logarithm
};

// Over many blanks, at one place and at another.
Statistics over_blanks(double variation, const Vec3 &a, const Vec3 &b, unsigned n)
{
  Statistics s;
  double square = 0, product = 0;
  for (unsigned seed = 1; seed <= n; ++seed) {
    const SwellingField field(variation, lengths, seed, 0);
    const double f = field.at(a);
    s.least = std::min(s.least, f);
    s.mean += f / n;
    square += f * f / n;
    product += field.gaussian(a) * field.gaussian(b) / n;
  }
  s.variation = std::sqrt(square - s.mean * s.mean);
  s.correlation = product;
  return s;
}

// Source: definition of a lognormal field [C]. Sampling errors of n blanks: of the mean
// variation/sqrt(n), of a correlation at most 1/sqrt(n) times sqrt(1 + rho^2); three of each.
TEST(SwellingField, HasItsMeanItsVariationAndItsCorrelation)
{
  constexpr unsigned n = 10000;
  const double root = std::sqrt(double(n));
  const Vec3 place = {0.3, 0.01, -0.005};
  struct Case
  {
    const char *what;
    Vec3 other;
  };
  for (const auto &[what, other] : {Case{"one length along the grain", {0.5, 0.01, -0.005}},
                                    Case{"half a length across", {0.3, 0.0175, -0.005}},
                                    Case{"two lengths away", {0.3, 0.01, 0.025}}}) {
    const Statistics s = over_blanks(0.6, place, other, n);
    double square = 0;
    for (unsigned i = 0; i < 3; ++i)
      square += std::pow((other[i] - place[i]) / lengths[i], 2);
    const double expected = std::exp(-square);
    const double tolerance = 3 * std::sqrt(1 + expected * expected) / root;
    EXPECT_NEAR(s.correlation, expected, tolerance) << what;
    tests::report("Uneven swelling, 10000 blanks", std::string("correlation ") + what,
                  "definition [C]", expected, s.correlation, tolerance);
    EXPECT_GT(s.least, 0);
  }
  const Statistics s = over_blanks(0.6, place, place, n);
  EXPECT_NEAR(s.mean, 1, 3 * 0.6 / root);
  tests::report("Uneven swelling, 10000 blanks", "mean of the factor", "definition [C]", 1, s.mean,
                3 * 0.6 / root);
  // The fourth moment of a lognormal with this variation makes its own error about 3 %.
  EXPECT_NEAR(s.variation, 0.6, 0.05 * 0.6);
  tests::report("Uneven swelling, 10000 blanks", "standard deviation of the factor",
                "definition [C]", 0.6, s.variation, 0.05 * 0.6);
}

TEST(SwellingField, IsTheSameForTheSameSeedAndAnotherForAnother)
{
  const Vec3 place = {0.123, -0.011, 0.003};
  const SwellingField first(0.6, lengths, 7, 0), again(0.6, lengths, 7, 0);
  EXPECT_EQ(first.at(place), again.at(place));
  EXPECT_NE(first.at(place), SwellingField(0.6, lengths, 8, 0).at(place));
  EXPECT_NE(first.at(place), SwellingField(0.6, lengths, 7, 1).at(place));
}

// A tripwire, not a proof: the numbers of seed 1 on any compiler (the generator's bits are fixed by
// the language; logarithm, sine and cosine may differ in the last digits).
TEST(SwellingField, GivesTheSameNumbersOnEveryMachine)
{
  const SwellingField field(0.6, lengths, 1, 0);
  EXPECT_NEAR(field.gaussian({0, 0, 0}), 0.0668613224522, 1e-9);
  EXPECT_NEAR(field.gaussian({0.4, 0.02, -0.01}), -0.467155512939, 1e-9);
}

// A bar of n x m x m cells with only what the field looks at.
solver::Space bar(unsigned n, unsigned m, mesh::Piece piece)
{
  solver::Space space;
  for (unsigned i = 0; i < n; ++i)
    for (unsigned j = 0; j < m; ++j)
      for (unsigned k = 0; k < m; ++k) {
        std::array<unsigned, solver::nodes_per_cell> nodes{};
        nodes[13] = unsigned(space.position.size());
        space.position.push_back(
            {0.5 * (i + 0.5) / n, 0.05 * ((j + 0.5) / m - 0.5), -0.02 * (k + 0.5) / m});
        space.cell_node.push_back(nodes);
        space.piece.push_back(unsigned(piece));
      }
  space.n_cells = unsigned(space.piece.size());
  return space;
}

double mean(const std::vector<double> &values)
{
  double sum = 0;
  for (const double v : values)
    sum += v;
  return sum / double(values.size());
}

TEST(SwellingField, IsTheSameBlankOnAFinerMesh)
{
  const cases::GrainScatter scatter = {0.6, lengths[0], lengths[1], 3};
  const auto coarse = solver::swelling_by_cell(bar(20, 4, mesh::Piece::shaft), scatter, false);
  const auto fine = solver::swelling_by_cell(bar(60, 12, mesh::Piece::shaft), scatter, false);
  ASSERT_EQ(coarse.size(), 20u * 16u);
  // Three times as fine: the middle one of 27 cells has the middle of the coarse cell.
  for (unsigned i = 0; i < 20; ++i)
    for (unsigned j = 0; j < 4; ++j)
      for (unsigned k = 0; k < 4; ++k)
        EXPECT_NEAR(fine[((3 * i + 1) * 12 + 3 * j + 1) * 12 + 3 * k + 1],
                    coarse[(i * 4 + j) * 4 + k], 1e-12);
  EXPECT_NEAR(mean(fine) / mean(coarse), 1, 0.02); // by the square of cell over length
}

TEST(SwellingField, TakesEachBlankForItself)
{
  const cases::GrainScatter scatter = {0.6, lengths[0], lengths[1], 3};
  const auto of = [&](mesh::Piece piece, bool scarf) {
    return solver::swelling_by_cell(bar(5, 2, piece), scatter, scarf);
  };
  using mesh::Piece;
  EXPECT_EQ(of(Piece::shaft, false), of(Piece::fillet, false));
  EXPECT_EQ(of(Piece::shaft, false), of(Piece::headstock, false));
  EXPECT_NE(of(Piece::shaft, true), of(Piece::headstock, true));
  EXPECT_NE(of(Piece::shaft, false), of(Piece::board, false));
  EXPECT_EQ(of(Piece::bar, false), std::vector<double>(20, 1.));
  EXPECT_TRUE(solver::swelling_by_cell(bar(5, 2, Piece::shaft), {}, false).empty());
  // Strips of a shaft are blanks of their own, here one of each half of its cells.
  std::vector<std::uint8_t> strips(20, solver::first_strip);
  std::fill(strips.begin() + 10, strips.end(), solver::first_strip + 1);
  const auto glued = solver::swelling_by_cell(bar(5, 2, Piece::shaft), scatter, false, strips);
  const auto whole = of(Piece::shaft, false);
  for (unsigned c = 0; c < 20; ++c)
    EXPECT_NE(glued[c], whole[c]);
  std::fill(strips.begin() + 10, strips.end(), solver::first_strip);
  const auto other = solver::swelling_by_cell(bar(5, 2, Piece::shaft), scatter, false, strips);
  EXPECT_EQ(glued[0], other[0]);
  EXPECT_NE(glued[15], other[15]);
}
} // namespace
