// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/direct_solver.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

using namespace overbend::solver;

namespace
{
// Springs of uneven stiffness between the neighbours of a box of nodes, each node on a soft base.
// `gap`: the springs that cross this plane are left out, so that the box falls into two.
SparseMatrix box_of_springs(int nx, int ny, int nz, int gap = -1)
{
  const auto number = [=](int x, int y, int z) { return unsigned((x * ny + y) * nz + z); };
  std::vector<std::pair<unsigned, unsigned>> springs;
  for (int x = 0; x < nx; ++x)
    for (int y = 0; y < ny; ++y)
      for (int z = 0; z < nz; ++z) {
        if (x + 1 < nx && x != gap)
          springs.push_back({number(x, y, z), number(x + 1, y, z)});
        if (y + 1 < ny)
          springs.push_back({number(x, y, z), number(x, y + 1, z)});
        if (z + 1 < nz)
          springs.push_back({number(x, y, z), number(x, y, z + 1)});
      }
  PatternBuilder pattern(nx * ny * nz);
  for (const auto &[a, b] : springs)
    pattern.add_group({a, b});
  SparseMatrix matrix = pattern.build();
  std::mt19937 random(7);
  for (const auto &[a, b] : springs) {
    const double stiffness = std::ldexp(1., int(random() % 7));
    matrix.at(a, a) += stiffness;
    matrix.at(b, b) += stiffness;
    matrix.at(a, b) -= stiffness;
    matrix.at(b, a) -= stiffness;
  }
  for (unsigned i = 0; i < matrix.size(); ++i)
    matrix.at(i, i) += 1e-2;
  return matrix;
}

std::vector<double> random_load(unsigned n, unsigned seed)
{
  std::mt19937 random(seed);
  std::vector<double> load(n);
  for (double &f : load)
    f = double(random() % 2001) - 1000;
  return load;
}

double norm(const std::vector<double> &v)
{
  double sum = 0;
  for (const double x : v)
    sum += x * x;
  return std::sqrt(sum);
}

struct Bounds
{
  double residual = 1e-13, single = 1e-4;
};

void expect_six_digits(const SparseMatrix &matrix, const Bounds &bounds = {})
{
  Factor full, some(Digits::some);
  full.factorise(matrix);
  some.factorise(matrix);
  const std::vector<double> load = random_load(matrix.size(), 3);
  std::vector<double> exact = load, left = load;
  std::vector<std::vector<double>> quick{load};
  full.solve(exact);
  some.precondition(quick);
  for (double &f : left)
    f = -f;
  matrix.add_times(exact, left);
  for (std::size_t i = 0; i < exact.size(); ++i)
    quick[0][i] -= exact[i];
  // Double precision: 1e-16 times the sums over a row and a column. Single precision: 6e-8 times
  // what the condition of the matrix leaves of it.
  EXPECT_LT(norm(left), bounds.residual * norm(load));
  EXPECT_LT(norm(quick[0]), bounds.single * norm(exact));
  EXPECT_GT(norm(exact), 0);
}
} // namespace

TEST(FactorSweep, SolvesAsTheFactorDoesToSinglePrecision)
{
  expect_six_digits(box_of_springs(40, 7, 5));
}

TEST(FactorSweep, SolvesBodiesThatDoNotTouch)
{
  expect_six_digits(box_of_springs(40, 7, 5, 12));
  // A few nodes on their soft base alone: 64 and its neighbours over 1e-2 make a condition of some
  // 1e4, and nothing averages. 6e-8 and 1e-16 times that, rounded up.
  expect_six_digits(box_of_springs(5, 1, 1, 2), {1e-12, 1e-3});
}

TEST(FactorSweep, SolvesOneUnknown)
{
  expect_six_digits(box_of_springs(1, 1, 1));
}

TEST(FactorSweep, GivesTheSameBytesAloneInCompanyAndAgain)
{
  const SparseMatrix matrix = box_of_springs(60, 6, 6);
  Factor factor(Digits::some);
  factor.factorise(matrix);
  std::vector<std::vector<double>> both{random_load(matrix.size(), 1),
                                        random_load(matrix.size(), 2)};
  for (unsigned k = 0; k < 2; ++k) {
    std::vector<std::vector<double>> alone{both[k]};
    factor.precondition(alone);
    for (unsigned again = 0; again < 20; ++again) {
      std::vector<std::vector<double>> block = both;
      factor.precondition(block);
      ASSERT_EQ(block[k], alone[0]);
    }
  }
}

TEST(FactorSweep, FollowsANewFactor)
{
  SparseMatrix matrix = box_of_springs(20, 4, 4);
  Factor factor(Digits::some);
  factor.factorise(matrix);
  std::vector<std::vector<double>> first{random_load(matrix.size(), 5)}, second = first;
  factor.precondition(first);
  for (double &value : matrix.value)
    value *= 4;
  factor.factorise(matrix);
  factor.precondition(second);
  for (std::size_t i = 0; i < first[0].size(); ++i)
    ASSERT_FLOAT_EQ(float(second[0][i]), float(first[0][i] / 4));
}

// Two nodes joined by a spring 1e9 times as stiff as what holds them: single precision loses the
// holding and finds a pivot of zero.
TEST(FactorSweep, TakesDoublePrecisionWhereSingleDoesNotDo)
{
  PatternBuilder pattern(2);
  pattern.add_group({0, 1});
  SparseMatrix matrix = pattern.build();
  matrix.value = {1 + 1e-9, -1, -1, 1};
  Factor factor(Digits::some);
  factor.factorise(matrix);
  std::vector<std::vector<double>> x{{0, 1e-9}};
  factor.precondition(x);
  EXPECT_NEAR(x[0][1], 1 + 1e-9, 1e-6);
  EXPECT_THROW(factor.solve(x[0]), std::logic_error);
}

TEST(FactorSweep, RefusesWhatIsFreeToMove)
{
  PatternBuilder pattern(2);
  pattern.add_group({0, 1});
  SparseMatrix matrix = pattern.build();
  matrix.value = {1, -1, -1, 1};
  for (const Digits digits : {Digits::some, Digits::all}) {
    Factor factor(digits);
    EXPECT_THROW(factor.factorise(matrix), std::runtime_error);
  }
}
