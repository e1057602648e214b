// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/block_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Order of convergence by a manufactured solution (Roache 1998, from memory): plane waves, whose
// body force is known from the stiffness tensor.
namespace overbend::tests
{
namespace
{
const solver::Vec3 wave[3] = {{31, 17, -11}, {-19, 23, 13}, {11, -29, 17}}; // 1/m
constexpr double amplitude[3] = {1e-4, -0.7e-4, 1.3e-4}, phase[3] = {0.3, 1.1, -0.6};

double wave_at(unsigned component, const solver::Vec3 &x)
{
  const solver::Vec3 &k = wave[component];
  return amplitude[component] *
         std::sin(k[0] * x[0] + k[1] * x[1] + k[2] * x[2] + phase[component]);
}

solver::Vec3 exact(const solver::Vec3 &x)
{
  return {wave_at(0, x), wave_at(1, x), wave_at(2, x)};
}

// f_i = -C_ijkl u_k,lj with u_k,lj = -wave_l wave_j u_k.
solver::Vec3 body_force(const Tensor4 &C, const solver::Vec3 &x)
{
  solver::Vec3 f{};
  for (unsigned k = 0; k < 3; ++k) {
    const double u = wave_at(k, x);
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        for (unsigned l = 0; l < 3; ++l)
          f[i] += C[i][j][k][l] * wave[k][j] * wave[k][l] * u;
  }
  return f;
}

double error_of(unsigned n)
{
  const auto model = distorted_block(n, 0.5, Distortion::smooth, elastic_maple());
  const Tensor4 C = stiffness_tensor(elastic_maple(), grain_of(model.piece[1]));
  std::vector<std::pair<unsigned, double>> held;
  for (const unsigned node : boundary_nodes(model.space)) {
    const solver::Vec3 u = exact(model.space.position[node]);
    for (unsigned i = 0; i < 3; ++i)
      held.emplace_back(3 * node + i, u[i]);
  }
  TimeRun run(model, held);
  run.mechanics.tolerance = 1e-12;
  run.load = body_load(model, [&](const solver::Vec3 &x) { return body_force(C, x); });
  run.step(run.temperature, 0);
  return l2_error(model, run.state.displacement, exact);
}
} // namespace

TEST(Convergence, DisplacementIsOfThirdOrderInL2)
{
  const double coarse = error_of(3), fine = error_of(6);
  const double order = std::log2(coarse / fine);
  report("Manufactured solution, slanting orthotropic block, distorted cells",
         "order of the L2 error of displacement", "theory of quadratic elements", 3, order, 0.2);
  EXPECT_GE(order, 2.8);
  EXPECT_LE(order, 3.6);
}
} // namespace overbend::tests
