// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/elasticity_kernel.h"

#include "solver/equations/parallel.h"
#include "solver/equations/processor_versions.h"

namespace overbend::solver
{
namespace
{
// Values on the 3 x 3 x 3 grid of nodes or points of a cell, first direction fastest.
using Grid = std::array<double, 27>;

// out = matrix applied along direction D (0, 1, 2) of the grid; Transposed swaps points and nodes.
template <int D, bool Transposed, bool Add>
inline void contract(const double (&matrix)[3][3], const Grid &in, Grid &out)
{
  constexpr int stride = D == 0 ? 1 : D == 1 ? 3 : 9;
  for (int outer = 0; outer < 9; ++outer) {
    const int base = D == 0 ? 3 * outer : D == 1 ? outer % 3 + 9 * (outer / 3) : outer;
    const double a = in[base], b = in[base + stride], c = in[base + 2 * stride];
    for (int i = 0; i < 3; ++i) {
      const double sum = Transposed ? matrix[0][i] * a + matrix[1][i] * b + matrix[2][i] * c
                                    : matrix[i][0] * a + matrix[i][1] * b + matrix[i][2] * c;
      if (Add)
        out[base + i * stride] += sum;
      else
        out[base + i * stride] = sum;
    }
  }
}

// Derivatives in the three unit directions at the points.
inline void unit_gradient(const LineShapes &s, const Grid &u, Grid (&g)[3])
{
  Grid value, slope, vv, sv, vs;
  contract<0, false, false>(s.value, u, value);
  contract<0, false, false>(s.slope, u, slope);
  contract<1, false, false>(s.value, value, vv);
  contract<1, false, false>(s.value, slope, sv);
  contract<1, false, false>(s.slope, value, vs);
  contract<2, false, false>(s.value, sv, g[0]);
  contract<2, false, false>(s.value, vs, g[1]);
  contract<2, false, false>(s.slope, vv, g[2]);
}

// The transpose: sums over the points what multiplies the derivatives of each node's shape.
inline void unit_divergence(const LineShapes &s, const Grid (&g)[3], Grid &u)
{
  Grid value, slope, vv, sv, vs;
  contract<2, true, false>(s.value, g[0], sv);
  contract<2, true, false>(s.value, g[1], vs);
  contract<2, true, false>(s.slope, g[2], vv);
  contract<1, true, false>(s.value, sv, slope);
  contract<1, true, false>(s.value, vv, value);
  contract<1, true, true>(s.slope, vs, value);
  contract<0, true, false>(s.slope, slope, u);
  contract<0, true, true>(s.value, value, u);
}

// Unit derivatives of the three components at all points of a cell.
struct CellGradient
{
  Grid component[3][3]; // [component][unit direction]
};

void gather(const Space &space, const LineShapes &s, const std::vector<double> &u, unsigned cell,
            CellGradient &g)
{
  const auto &nodes = space.cell_node[cell];
  for (unsigned i = 0; i < 3; ++i) {
    Grid local;
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      local[a] = u[3 * nodes[a] + i];
    unit_gradient(s, local, g.component[i]);
  }
}

void scatter(const Space &space, const LineShapes &s, const CellGradient &g, unsigned cell,
             std::vector<double> &force)
{
  const auto &nodes = space.cell_node[cell];
  for (unsigned i = 0; i < 3; ++i) {
    Grid local;
    unit_divergence(s, g.component[i], local);
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      force[3 * nodes[a] + i] += local[a];
  }
}

inline Voigt strain_at(const CellGradient &g, const std::array<double, 9> &inverse, unsigned q)
{
  double du[3][3]; // d u_i / d x_j
  for (unsigned i = 0; i < 3; ++i)
    for (unsigned j = 0; j < 3; ++j)
      du[i][j] = g.component[i][0][q] * inverse[j] + g.component[i][1][q] * inverse[3 + j] +
                 g.component[i][2][q] * inverse[6 + j];
  return {du[0][0],           du[1][1], du[2][2], du[1][2] + du[2][1], du[0][2] + du[2][0],
          du[0][1] + du[1][0]};
}

// Turns the gradient slots of point q into what the divergence needs for this stress.
inline void set_stress(CellGradient &g, const std::array<double, 9> &inverse, double jxw,
                       const Voigt &s, unsigned q)
{
  const double full[3][3] = {{s[0], s[5], s[4]}, {s[5], s[1], s[3]}, {s[4], s[3], s[2]}};
  for (unsigned i = 0; i < 3; ++i)
    for (unsigned d = 0; d < 3; ++d)
      g.component[i][d][q] = jxw * (full[i][0] * inverse[3 * d] + full[i][1] * inverse[3 * d + 1] +
                                    full[i][2] * inverse[3 * d + 2]);
}
} // namespace

Voigt multiply(const Stiffness &k, const Voigt &e)
{
  return {k[0] * e[0] + k[1] * e[1] + k[2] * e[2] + k[3] * e[3] + k[4] * e[4] + k[5] * e[5],
          k[1] * e[0] + k[6] * e[1] + k[7] * e[2] + k[8] * e[3] + k[9] * e[4] + k[10] * e[5],
          k[2] * e[0] + k[7] * e[1] + k[11] * e[2] + k[12] * e[3] + k[13] * e[4] + k[14] * e[5],
          k[3] * e[0] + k[8] * e[1] + k[12] * e[2] + k[15] * e[3] + k[16] * e[4] + k[17] * e[5],
          k[4] * e[0] + k[9] * e[1] + k[13] * e[2] + k[16] * e[3] + k[18] * e[4] + k[19] * e[5],
          k[5] * e[0] + k[10] * e[1] + k[14] * e[2] + k[17] * e[3] + k[19] * e[4] + k[20] * e[5]};
}

std::vector<Voigt> strains(const Space &space, const std::vector<double> &displacement)
{
  const LineShapes &s = line_shapes();
  std::vector<Voigt> result(space.jxw.size());
  in_two_threads(space.n_cells, [&](std::size_t first, std::size_t last) {
    CellGradient g;
    for (std::size_t c = first; c < last; ++c) {
      gather(space, s, displacement, unsigned(c), g);
      for (unsigned q = 0; q < points_per_cell; ++q) {
        const std::size_t p = c * points_per_cell + q;
        result[p] = strain_at(g, space.inverse_jacobian[p], q);
      }
    }
  });
  return result;
}

void add_internal_force(const Space &space, const std::vector<Voigt> &stress,
                        std::vector<double> &force)
{
  const LineShapes &s = line_shapes();
  add_in_two_threads(space.n_cells, force, [&](std::size_t first, std::size_t last, auto &sum) {
    CellGradient g;
    for (std::size_t c = first; c < last; ++c) {
      for (unsigned q = 0; q < points_per_cell; ++q) {
        const std::size_t p = c * points_per_cell + q;
        set_stress(g, space.inverse_jacobian[p], space.jxw[p], stress[p], q);
      }
      scatter(space, s, g, unsigned(c), sum);
    }
  });
}

void add_stiffness_times(const Space &space, const std::vector<Stiffness> &stiffness,
                         const std::vector<double> &displacement, std::vector<double> &force)
{
  const LineShapes &s = line_shapes();
  add_in_two_threads(space.n_cells, force, [&](std::size_t first, std::size_t last, auto &sum) {
    CellGradient g;
    for (std::size_t c = first; c < last; ++c) {
      gather(space, s, displacement, unsigned(c), g);
      for (unsigned q = 0; q < points_per_cell; ++q) {
        const std::size_t p = c * points_per_cell + q;
        const Voigt strain = strain_at(g, space.inverse_jacobian[p], q);
        set_stress(g, space.inverse_jacobian[p], space.jxw[p], multiply(stiffness[p], strain), q);
      }
      scatter(space, s, g, unsigned(c), sum);
    }
  });
}

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
