// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/elasticity_kernel.h"

#include "solver/equations/parallel.h"
#include "solver/equations/processor_versions.h"

namespace overbend::solver
{
namespace
{
// The three components of a vector, worked on together; the fourth place is idle.
using Components = double __attribute__((vector_size(32)));

// Vectors on the 3 x 3 x 3 grid of nodes or points of a cell, first direction fastest.
struct Grid
{
  Components at[27];
};

// out = matrix applied along direction D (0, 1, 2) of the grid; Transposed swaps points and nodes.
template <int D, bool Transposed, bool Add>
OVERBEND_INLINE void contract(const double (&matrix)[3][3], const Grid &in, Grid &out)
{
  constexpr int stride = D == 0 ? 1 : D == 1 ? 3 : 9;
  for (int outer = 0; outer < 9; ++outer) {
    const int base = D == 0 ? 3 * outer : D == 1 ? outer % 3 + 9 * (outer / 3) : outer;
    const Components a = in.at[base], b = in.at[base + stride], c = in.at[base + 2 * stride];
    for (int i = 0; i < 3; ++i) {
      const Components sum = Transposed ? matrix[0][i] * a + matrix[1][i] * b + matrix[2][i] * c
                                        : matrix[i][0] * a + matrix[i][1] * b + matrix[i][2] * c;
      if (Add)
        out.at[base + i * stride] += sum;
      else
        out.at[base + i * stride] = sum;
    }
  }
}

// Derivatives in the three unit directions at the points.
OVERBEND_INLINE void unit_gradient(const LineShapes &s, const Grid &u, Grid (&g)[3])
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
OVERBEND_INLINE void unit_divergence(const LineShapes &s, const Grid (&g)[3], Grid &u)
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

// Derivatives in the three unit directions at all points of a cell.
struct CellGradient
{
  Grid along[3];
};

OVERBEND_INLINE void gather(const Space &space, const LineShapes &s, const double *u, unsigned cell,
                            CellGradient &g)
{
  const auto &nodes = space.cell_node[cell];
  Grid local;
  for (unsigned a = 0; a < nodes_per_cell; ++a) {
    const double *const at = u + 3 * nodes[a];
    local.at[a] = Components{at[0], at[1], at[2], 0};
  }
  unit_gradient(s, local, g.along);
}

OVERBEND_INLINE void scatter(const Space &space, const LineShapes &s, const CellGradient &g,
                             unsigned cell, double *force)
{
  const auto &nodes = space.cell_node[cell];
  Grid local;
  unit_divergence(s, g.along, local);
  for (unsigned a = 0; a < nodes_per_cell; ++a)
    for (unsigned i = 0; i < 3; ++i)
      force[3 * nodes[a] + i] += local.at[a][i];
}

OVERBEND_INLINE void strain_at(const CellGradient &g, const std::array<double, 9> &inverse,
                               unsigned q, Voigt &strain)
{
  Components du[3]; // by x_j
  for (unsigned j = 0; j < 3; ++j)
    du[j] = g.along[0].at[q] * inverse[j] + g.along[1].at[q] * inverse[3 + j] +
            g.along[2].at[q] * inverse[6 + j];
  strain = {du[0][0],           du[1][1], du[2][2], du[2][1] + du[1][2], du[2][0] + du[0][2],
            du[1][0] + du[0][1]};
}

// Turns the gradient's places of point q into what the divergence needs for this stress.
OVERBEND_INLINE void set_stress(CellGradient &g, const std::array<double, 9> &inverse, double jxw,
                                const Voigt &s, unsigned q)
{
  const Components x = {jxw * s[0], jxw * s[5], jxw * s[4], 0},
                   y = {jxw * s[5], jxw * s[1], jxw * s[3], 0},
                   z = {jxw * s[4], jxw * s[3], jxw * s[2], 0};
  for (unsigned d = 0; d < 3; ++d)
    g.along[d].at[q] = x * inverse[3 * d] + y * inverse[3 * d + 1] + z * inverse[3 * d + 2];
}

OVERBEND_INLINE void multiply_at(const Stiffness &k, const Voigt &e, Voigt &stress)
{
  stress = {k[0] * e[0] + k[1] * e[1] + k[2] * e[2] + k[3] * e[3] + k[4] * e[4] + k[5] * e[5],
            k[1] * e[0] + k[6] * e[1] + k[7] * e[2] + k[8] * e[3] + k[9] * e[4] + k[10] * e[5],
            k[2] * e[0] + k[7] * e[1] + k[11] * e[2] + k[12] * e[3] + k[13] * e[4] + k[14] * e[5],
            k[3] * e[0] + k[8] * e[1] + k[12] * e[2] + k[15] * e[3] + k[16] * e[4] + k[17] * e[5],
            k[4] * e[0] + k[9] * e[1] + k[13] * e[2] + k[16] * e[3] + k[18] * e[4] + k[19] * e[5],
            k[5] * e[0] + k[10] * e[1] + k[14] * e[2] + k[17] * e[3] + k[19] * e[4] + k[20] * e[5]};
}

// The cells from `first` to before `last`.
struct Cells
{
  const Space &space;
  std::size_t first, last;
};

OVERBEND_PROCESSOR_VERSIONS
void strains_of(const Cells &cells, const double *displacement, Voigt *strain)
{
  const LineShapes &s = line_shapes();
  CellGradient g;
  for (std::size_t c = cells.first; c < cells.last; ++c) {
    gather(cells.space, s, displacement, unsigned(c), g);
    for (unsigned q = 0; q < points_per_cell; ++q) {
      const std::size_t p = c * points_per_cell + q;
      strain_at(g, cells.space.inverse_jacobian[p], q, strain[p]);
    }
  }
}

OVERBEND_PROCESSOR_VERSIONS
void add_force_of(const Cells &cells, const Voigt *stress, double *force)
{
  const LineShapes &s = line_shapes();
  const Space &space = cells.space;
  CellGradient g;
  for (std::size_t c = cells.first; c < cells.last; ++c) {
    for (unsigned q = 0; q < points_per_cell; ++q) {
      const std::size_t p = c * points_per_cell + q;
      set_stress(g, space.inverse_jacobian[p], space.jxw[p], stress[p], q);
    }
    scatter(space, s, g, unsigned(c), force);
  }
}

OVERBEND_PROCESSOR_VERSIONS
void add_stiffness_of(const Cells &cells, const Stiffness *stiffness, const double *displacement,
                      double *force)
{
  const LineShapes &s = line_shapes();
  const Space &space = cells.space;
  CellGradient g;
  Voigt strain, stress;
  for (std::size_t c = cells.first; c < cells.last; ++c) {
    gather(space, s, displacement, unsigned(c), g);
    for (unsigned q = 0; q < points_per_cell; ++q) {
      const std::size_t p = c * points_per_cell + q;
      strain_at(g, space.inverse_jacobian[p], q, strain);
      multiply_at(stiffness[p], strain, stress);
      set_stress(g, space.inverse_jacobian[p], space.jxw[p], stress, q);
    }
    scatter(space, s, g, unsigned(c), force);
  }
}
} // namespace

Voigt multiply(const Stiffness &stiffness, const Voigt &strain)
{
  Voigt stress;
  multiply_at(stiffness, strain, stress);
  return stress;
}

std::vector<Voigt> strains(const Space &space, const std::vector<double> &displacement)
{
  std::vector<Voigt> result(space.jxw.size());
  in_two_threads(space.n_cells, [&](std::size_t first, std::size_t last) {
    strains_of({space, first, last}, displacement.data(), result.data());
  });
  return result;
}

void add_internal_force(const Space &space, const std::vector<Voigt> &stress,
                        std::vector<double> &force)
{
  add_in_two_threads(space.n_cells, force, [&](std::size_t first, std::size_t last, auto &sum) {
    add_force_of({space, first, last}, stress.data(), sum.data());
  });
}

void add_stiffness_times(const Space &space, const std::vector<Stiffness> &stiffness,
                         const std::vector<double> &displacement, std::vector<double> &force)
{
  add_in_two_threads(space.n_cells, force, [&](std::size_t first, std::size_t last, auto &sum) {
    add_stiffness_of({space, first, last}, stiffness.data(), displacement.data(), sum.data());
  });
}
} // namespace overbend::solver
