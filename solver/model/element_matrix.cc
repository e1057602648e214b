// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/processor_versions.h"
#include "solver/model/elasticity_kernel.h"

// Element stiffness by the Gauss points of a cell, for the matrix that a factor is made from.
namespace overbend::solver
{
namespace
{
// Gradients in model axes of all shapes at one point.
void shape_gradients(const LineShapes &s, const std::array<double, 9> &inverse, unsigned q,
                     double (&gradient)[nodes_per_cell][3])
{
  const unsigned qx = q % 3, qy = q / 3 % 3, qz = q / 9;
  for (unsigned a = 0; a < nodes_per_cell; ++a) {
    const unsigned ax = a % 3, ay = a / 3 % 3, az = a / 9;
    const double unit[3] = {s.slope[qx][ax] * s.value[qy][ay] * s.value[qz][az],
                            s.value[qx][ax] * s.slope[qy][ay] * s.value[qz][az],
                            s.value[qx][ax] * s.value[qy][ay] * s.slope[qz][az]};
    for (unsigned j = 0; j < 3; ++j)
      gradient[a][j] = unit[0] * inverse[j] + unit[1] * inverse[3 + j] + unit[2] * inverse[6 + j];
  }
}

constexpr unsigned unknowns = 3 * nodes_per_cell;
constexpr unsigned points_together = 3; // whose products share one pass over the matrix

// Stress of a unit displacement of each unknown of the cell, times the point's weight: D B.
void stress_of_units(const Stiffness &k, double weight, const double (&gradient)[nodes_per_cell][3],
                     double (&stress)[6][unknowns])
{
  // Where each of the six strains has a component of the gradient, by direction of the unit.
  static constexpr unsigned strain[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
  static constexpr unsigned row_start[6] = {0, 6, 11, 15, 18, 20}; // of the upper triangle
  double full[6][6];
  for (unsigned i = 0; i < 6; ++i)
    for (unsigned j = i; j < 6; ++j)
      full[i][j] = full[j][i] = weight * k[row_start[i] + j - i];
  for (unsigned i = 0; i < 6; ++i)
    for (unsigned b = 0; b < nodes_per_cell; ++b)
      for (unsigned j = 0; j < 3; ++j)
        stress[i][3 * b + j] = full[i][strain[j][0]] * gradient[b][0] +
                               full[i][strain[j][1]] * gradient[b][1] +
                               full[i][strain[j][2]] * gradient[b][2];
}

// Lower triangle of matrix += B^T D B of some points.
OVERBEND_PROCESSOR_VERSIONS
void add_points(const double (&gradient)[points_together][nodes_per_cell][3],
                const double (&stress)[points_together][6][unknowns], double *matrix)
{
  for (unsigned a = 0; a < nodes_per_cell; ++a) {
    const unsigned end = 3 * a + 3;
    double *const row = matrix + std::size_t(3 * a) * unknowns;
    for (unsigned q = 0; q < points_together; ++q) {
      const double g0 = gradient[q][a][0], g1 = gradient[q][a][1], g2 = gradient[q][a][2];
      const auto &t = stress[q];
      for (unsigned b = 0; b < end; ++b) {
        row[b] += g0 * t[0][b] + g1 * t[5][b] + g2 * t[4][b];
        row[unknowns + b] += g0 * t[5][b] + g1 * t[1][b] + g2 * t[3][b];
        row[2 * unknowns + b] += g0 * t[4][b] + g1 * t[3][b] + g2 * t[2][b];
      }
    }
  }
}
} // namespace

void element_matrix(const Space &space, const std::vector<Stiffness> &stiffness, unsigned cell,
                    ElementMatrix &matrix)
{
  static_assert(points_per_cell % points_together == 0, "each point belongs to a group");
  const LineShapes &s = line_shapes();
  matrix.fill(0);
  double gradient[points_together][nodes_per_cell][3], stress[points_together][6][unknowns];
  for (unsigned first = 0; first < points_per_cell; first += points_together) {
    for (unsigned q = 0; q < points_together; ++q) {
      const std::size_t p = std::size_t(cell) * points_per_cell + first + q;
      shape_gradients(s, space.inverse_jacobian[p], first + q, gradient[q]);
      stress_of_units(stiffness[p], space.jxw[p], gradient[q], stress[q]);
    }
    add_points(gradient, stress, matrix.data());
  }
  for (unsigned a = 0; a < unknowns; ++a)
    for (unsigned b = a + 1; b < unknowns; ++b)
      matrix[a * unknowns + b] = matrix[b * unknowns + a];
}
} // namespace overbend::solver
