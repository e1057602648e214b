// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/wood_axes.h"
#include "tests/report.h"
#include "tests/verification/block_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

// Patch tests (Irons & Razzaque 1972, from memory) on randomly distorted cells with slanting
// grain: what every element must give exactly.
namespace overbend::tests
{
namespace
{
constexpr double exactly = 1e-10;

Tensor2 some_gradient()
{
  Tensor2 g;
  const double numbers[9] = {1, -0.4, 0.7, 0.3, -1.2, 0.5, -0.6, 0.9, 0.8};
  for (unsigned i = 0; i < 9; ++i)
    g[i / 3][i % 3] = 1e-3 * numbers[i];
  return g;
}

std::vector<double> linear_field(const solver::Model &model, const Tensor2 &gradient)
{
  std::vector<double> u(model.n_unknowns(), 0.);
  for (unsigned n = 0; n < model.space.n_nodes; ++n)
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        u[3 * n + i] += gradient[i][j] * model.space.position[n][j];
  return u;
}

// Largest component of the difference between the stress of a state and a uniform one.
double largest_difference(const solver::Model &model, const solver::MechanicsState &state,
                          const Tensor2 &uniform)
{
  const unsigned pair[6][2] = {{0, 0}, {1, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}};
  double largest = 0;
  for (const solver::Voigt &s : model_stress(model, state))
    for (unsigned k = 0; k < 6; ++k)
      largest = std::max(largest, std::abs(s[k] - uniform[pair[k][0]][pair[k][1]]));
  return largest;
}

// Holds six unknowns of a block against rigid motion.
std::vector<std::pair<unsigned, double>> six_held(const solver::Model &model)
{
  const auto near = [&](double x, double y, double z) {
    unsigned best = 0;
    double least = 1e9;
    for (unsigned n = 0; n < model.space.n_nodes; ++n) {
      const auto &p = model.space.position[n];
      const double d = std::hypot(p[0] - x, p[1] - y, p[2] - z);
      if (d < least) {
        least = d;
        best = n;
      }
    }
    return best;
  };
  const unsigned a = near(0, 0, 0), b = near(0.1, 0, 0), c = near(0, 0.1, 0);
  return {{3 * a, 0},     {3 * a + 1, 0}, {3 * a + 2, 0},
          {3 * b + 1, 0}, {3 * b + 2, 0}, {3 * c + 2, 0}};
}
} // namespace

TEST(Patch, LinearDisplacementAndUniformStressAreExact)
{
  const auto model = distorted_block(3, 0.25, Distortion::random, elastic_maple());
  const auto exact = linear_field(model, some_gradient());
  std::vector<std::pair<unsigned, double>> held;
  for (const unsigned n : boundary_nodes(model.space))
    for (unsigned i = 0; i < 3; ++i)
      held.emplace_back(3 * n + i, exact[3 * n + i]);
  ASSERT_GT(model.n_unknowns(), held.size() + 300); // something is left to be found

  TimeRun run(model, held);
  run.mechanics.tolerance = 1e-14;
  run.step(run.temperature, 0);
  double error = 0, size = 0;
  for (std::size_t i = 0; i < exact.size(); ++i) {
    error = std::max(error, std::abs(run.state.displacement[i] - exact[i]));
    size = std::max(size, std::abs(exact[i]));
  }
  report("Patch test, distorted cells, slanting grain", "displacement, relative error",
         "Irons & Razzaque 1972 (from memory)", 0, error / size, exactly);
  EXPECT_LE(error, exactly * size);

  const Tensor4 stiffness = stiffness_tensor(elastic_maple(), grain_of(model.piece[1]));
  Tensor2 stress = dealii::double_contract<2, 0, 3, 1>(stiffness, some_gradient());
  const double difference = largest_difference(model, run.state, stress) / stress.norm();
  report("Patch test, distorted cells, slanting grain", "stress, relative error",
         "Irons & Razzaque 1972 (from memory)", 0, difference, exactly);
  EXPECT_LE(difference, exactly);
}

TEST(Patch, RigidMotionGivesNoStress)
{
  const auto model = distorted_block(3, 0.25, Distortion::random, elastic_maple());
  Tensor2 turn;
  turn[0][1] = 0.01;
  turn[0][2] = -0.02;
  turn[1][2] = 0.015;
  auto u = linear_field(model, turn - dealii::transpose(turn));
  for (unsigned n = 0; n < model.space.n_nodes; ++n)
    u[3 * n + 1] += 0.003;
  double strain = 0;
  for (const solver::Voigt &e : solver::strains(model.space, u))
    for (const double component : e)
      strain = std::max(strain, std::abs(component));
  report("Rigid motion", "strain per rotation", "kinematics", 0, strain / turn.norm(), exactly);
  EXPECT_LE(strain, exactly * turn.norm());
}

TEST(Patch, FreeHeatingOfOnePieceGivesNoStress)
{
  materials::Wood wood = elastic_maple();
  wood.expansion = {4e-6, 31e-6, 40e-6};
  wood.drop_along = 0.0015;
  wood.drop_across = {0.2, 0.35, 0.38};
  wood.drop_shear = 0.25;
  const auto model = distorted_block(3, 0.25, Distortion::random, wood);
  TimeRun run(model, six_held(model));
  run.mechanics.tolerance = 1e-14;
  run.step(323.15, 600);
  const double scale = wood.E_L * wood.expansion[2] * 30;
  const double stress = largest_difference(model, run.state, Tensor2()) / scale;
  report("Free heating of one piece by 30 K", "stress over E_L alpha_T dT", "thermoelasticity", 0,
         stress, exactly);
  EXPECT_LE(stress, exactly);

  // The piece grows along its own L, R, T by alpha dT.
  Tensor2 growth;
  for (unsigned a = 0; a < 3; ++a)
    growth[a][a] = wood.expansion[a] * 30;
  const Tensor2 grain = grain_of(model.piece[1]);
  const Tensor2 expected = grain * growth * dealii::transpose(grain);
  double error = 0;
  for (const solver::Voigt &e : solver::strains(model.space, run.state.displacement))
    error = std::max({error, std::abs(e[0] - expected[0][0]), std::abs(e[5] - 2 * expected[0][1]),
                      std::abs(e[3] - 2 * expected[1][2])});
  EXPECT_LE(error, exactly * growth.norm());
}

TEST(Patch, AssembledMatrixIsTheOperatorThatTheIterationApplies)
{
  const auto model = distorted_block(3, 0.25, Distortion::random, elastic_maple());
  const materials::WoodLaw law(elastic_maple());
  const solver::Stiffness stiffness = solver::to_model_axes(
      solver::strain_map(model.piece[1].grain), solver::inverse(law.elastic(293.15, 0.12)));
  const std::vector<solver::Stiffness> everywhere(model.space.jxw.size(), stiffness);
  std::mt19937 generator(3);
  std::uniform_real_distribution<double> uniform(-1, 1);
  std::vector<double> u(model.n_unknowns());
  for (double &value : u)
    value = uniform(generator);

  std::vector<double> free(u.size(), 0.), assembled(u.size(), 0.), by_stress(u.size(), 0.);
  solver::add_stiffness_times(model.space, everywhere, u, free);
  std::vector<solver::Voigt> stress;
  for (const solver::Voigt &e : solver::strains(model.space, u))
    stress.push_back(solver::multiply(stiffness, e));
  solver::add_internal_force(model.space, stress, by_stress);
  solver::ElementMatrix matrix;
  for (unsigned c = 0; c < model.space.n_cells; ++c) {
    solver::element_matrix(model.space, everywhere, c, matrix);
    const auto &nodes = model.space.cell_node[c];
    for (unsigned a = 0; a < 81; ++a)
      for (unsigned b = 0; b < 81; ++b)
        assembled[3 * nodes[a / 3] + a % 3] += matrix[81 * a + b] * u[3 * nodes[b / 3] + b % 3];
  }
  double size = 0, error = 0, error_by_stress = 0;
  for (std::size_t i = 0; i < u.size(); ++i) {
    size = std::max(size, std::abs(free[i]));
    error = std::max(error, std::abs(free[i] - assembled[i]));
    error_by_stress = std::max(error_by_stress, std::abs(free[i] - by_stress[i]));
  }
  report("Element matrix against the operator without a matrix", "relative difference",
         "two ways of the same sum", 0, error / size, 1e-12);
  EXPECT_LE(error, 1e-12 * size);
  EXPECT_LE(error_by_stress, 1e-12 * size);
}
} // namespace overbend::tests
