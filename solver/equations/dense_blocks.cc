// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/dense_blocks.h"

#include "solver/equations/dense_lanes.h"

#include <algorithm>
#include <cmath>

// Our own loops and not BLAS: the supernodes of a neck are small; OpenBLAS 0.3.21 took nine tenths
// of a sweep for its product with a transposed block, gives processors younger than itself the
// kernels of 2004, and would sum in another order on another version.
namespace overbend::solver
{
namespace
{
using dense::column;
constexpr int together = 4; // columns that a loop over rows takes at once
constexpr int panel = 24;   // columns factorised before the rest is taken along

template <int C, typename Real>
OVERBEND_INLINE void forward_columns(BlockSize size, int j, const Real *block, Real *own,
                                     Real *below)
{
  const int ld = size.n_rows;
  const Real *const a = column(block, ld, j);
  for (int c = 0; c < C; ++c) {
    own[j + c] /= column(a, ld, c)[j + c];
    for (int d = c + 1; d < C; ++d)
      own[j + d] -= column(a, ld, c)[j + d] * own[j + c];
  }
  dense::take_off<C>(size.n_columns - j - C, a + j + C, ld, own + j, own + j + C);
  dense::take_off<C>(size.n_below(), a + size.n_columns, ld, own + j, below);
}

template <int C, typename Real>
OVERBEND_INLINE void backward_columns(BlockSize size, int j, const Real *block, Real *own,
                                      const Real *below)
{
  const int ld = size.n_rows;
  const Real *const a = column(block, ld, j);
  Real sum[C] = {};
  dense::add_products<C>(size.n_below(), a + size.n_columns, ld, below, sum);
  dense::add_products<C>(size.n_columns - j - C, a + j + C, ld, own + j + C, sum);
  for (int c = C; c-- > 0;) {
    for (int d = c + 1; d < C; ++d)
      sum[c] += column(a, ld, c)[j + d] * own[j + d];
    own[j + c] = (own[j + c] - sum[c]) / column(a, ld, c)[j + c];
  }
}

template <typename Real>
OVERBEND_INLINE void forward(BlockSize size, const Real *block, Real *own, Real *below)
{
  int j = 0;
  for (; j + together <= size.n_columns; j += together)
    forward_columns<together>(size, j, block, own, below);
  for (; j < size.n_columns; ++j)
    forward_columns<1>(size, j, block, own, below);
}

template <typename Real>
OVERBEND_INLINE void backward(BlockSize size, const Real *block, Real *own, const Real *below)
{
  int j = size.n_columns;
  for (; j % together != 0; --j)
    backward_columns<1>(size, j - 1, block, own, below);
  for (; j > 0; j -= together)
    backward_columns<together>(size, j - together, block, own, below);
}

// Lower triangle of c (n x n) -= a a^T, and the same of the `m` rows below it, of a and of c. What
// is right of the diagonal within `together` columns becomes nonsense.
template <typename Real>
OVERBEND_INLINE void take_off_square(int n, int m, int k, const Real *a, int lda, Real *c, int ldc)
{
  int j = 0;
  for (; j + together <= n; j += together)
    dense::product<together>(n + m - j, k, a + j, lda, a + j, lda, column(c, ldc, j) + j, ldc);
  for (; j < n; ++j)
    dense::product<1>(n + m - j, k, a + j, lda, a + j, lda, column(c, ldc, j) + j, ldc);
}

// The first columns of a block, each taken along by those to its left.
template <typename Real>
OVERBEND_INLINE bool factorise_panel(int n_rows, int n_columns, int ld, Real *a)
{
  for (int j = 0; j < n_columns; ++j) {
    Real *const own = column(a, ld, j);
    Real left[panel];
    for (int c = 0; c < j; ++c)
      left[c] = column(a, ld, c)[j];
    int c = 0;
    for (; c + together <= j; c += together)
      dense::take_off<together>(n_rows - j, column(a, ld, c) + j, ld, left + c, own + j);
    for (; c < j; ++c)
      dense::take_off<1>(n_rows - j, column(a, ld, c) + j, ld, left + c, own + j);
    if (!(own[j] > 0))
      return false;
    own[j] = std::sqrt(own[j]);
    const Real scale = 1 / own[j];
    for (int i = j + 1; i < n_rows; ++i)
      own[i] *= scale;
  }
  return true;
}

template <typename Real>
OVERBEND_INLINE bool factorise(BlockSize size, Real *block)
{
  const int ld = size.n_rows;
  for (int j = 0; j < size.n_columns; j += panel) {
    const int wide = std::min(panel, size.n_columns - j), next = j + wide;
    Real *const a = column(block, ld, j) + j;
    if (!factorise_panel(size.n_rows - j, wide, ld, a))
      return false;
    take_off_square(size.n_columns - next, size.n_below(), wide, a + wide, ld,
                    column(block, ld, next) + next, ld);
  }
  return true;
}

template <typename Real>
OVERBEND_INLINE void subtract(BlockSize size, const Real *block, Real *update)
{
  take_off_square(size.n_below(), 0, size.n_columns, block + size.n_columns, size.n_rows, update,
                  size.n_below());
}
} // namespace

OVERBEND_PROCESSOR_VERSIONS
bool factorise_block(BlockSize size, float *block)
{
  return factorise(size, block);
}
OVERBEND_PROCESSOR_VERSIONS
bool factorise_block(BlockSize size, double *block)
{
  return factorise(size, block);
}

OVERBEND_PROCESSOR_VERSIONS
void subtract_square(BlockSize size, const float *block, float *update)
{
  subtract(size, block, update);
}
OVERBEND_PROCESSOR_VERSIONS
void subtract_square(BlockSize size, const double *block, double *update)
{
  subtract(size, block, update);
}

OVERBEND_PROCESSOR_VERSIONS
void sweep_forward(BlockSize size, const float *block, float *own, float *below)
{
  forward(size, block, own, below);
}
OVERBEND_PROCESSOR_VERSIONS
void sweep_forward(BlockSize size, const double *block, double *own, double *below)
{
  forward(size, block, own, below);
}

OVERBEND_PROCESSOR_VERSIONS
void sweep_backward(BlockSize size, const float *block, float *own, const float *below)
{
  backward(size, block, own, below);
}
OVERBEND_PROCESSOR_VERSIONS
void sweep_backward(BlockSize size, const double *block, double *own, const double *below)
{
  backward(size, block, own, below);
}
} // namespace overbend::solver
