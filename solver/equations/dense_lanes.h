// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/processor_versions.h"

#include <cstddef>

// Loops of dense_blocks.cc, for its versions for processors. Matrices are stored by columns, `ld`
// apart.
namespace overbend::solver::dense
{
// Numbers that are worked on together, and the same wherever they lie in memory.
template <typename Real, int Bytes>
struct Lanes;
template <>
struct Lanes<float, 64>
{
  using Wide = float __attribute__((vector_size(64)));
  using Anywhere = float __attribute__((vector_size(64), aligned(4), may_alias));
};
template <>
struct Lanes<float, 32>
{
  using Wide = float __attribute__((vector_size(32)));
  using Anywhere = float __attribute__((vector_size(32), aligned(4), may_alias));
};
template <>
struct Lanes<float, 16>
{
  using Wide = float __attribute__((vector_size(16)));
  using Anywhere = float __attribute__((vector_size(16), aligned(4), may_alias));
};
template <>
struct Lanes<double, 64>
{
  using Wide = double __attribute__((vector_size(64)));
  using Anywhere = double __attribute__((vector_size(64), aligned(8), may_alias));
};
template <>
struct Lanes<double, 32>
{
  using Wide = double __attribute__((vector_size(32)));
  using Anywhere = double __attribute__((vector_size(32), aligned(8), may_alias));
};
template <>
struct Lanes<double, 16>
{
  using Wide = double __attribute__((vector_size(16)));
  using Anywhere = double __attribute__((vector_size(16), aligned(8), may_alias));
};

template <typename Real>
constexpr Real *column(Real *a, int ld, int c)
{
  return a + std::ptrdiff_t(c) * ld;
}

// y -= sum of C columns of a times x.
template <int C, typename Real>
OVERBEND_INLINE void take_off(int n, const Real *__restrict a, int ld, const Real *x,
                              Real *__restrict y)
{
  Real factor[C];
  for (int c = 0; c < C; ++c)
    factor[c] = x[c];
  for (int i = 0; i < n; ++i) {
    Real sum = 0;
    for (int c = 0; c < C; ++c)
      sum += column(a, ld, c)[i] * factor[c];
    y[i] -= sum;
  }
}

// sum[c] += column c of a . y, in a fixed order of sums.
template <int C, typename Real>
OVERBEND_INLINE void add_products(int n, const Real *a, int ld, const Real *y, Real *sum)
{
  using Wide = typename Lanes<Real, 64>::Wide;
  using Anywhere = typename Lanes<Real, 64>::Anywhere;
  constexpr int width = 64 / sizeof(Real);
  Wide part[C] = {};
  int i = 0;
  for (; i + width <= n; i += width) {
    const Wide known = *reinterpret_cast<const Anywhere *>(y + i);
    for (int c = 0; c < C; ++c)
      part[c] += *reinterpret_cast<const Anywhere *>(column(a, ld, c) + i) * known;
  }
  for (int c = 0; c < C; ++c) {
    for (int k = i; k < n; ++k)
      sum[c] += column(a, ld, c)[k] * y[k];
    for (int w = 0; w < width; ++w)
      sum[c] += part[c][w];
  }
}

// The next rows of product() below, as many as `Vectors` vectors of `Bytes` hold; moves to the rows
// after them while there are enough.
template <int Bytes, int Vectors, int C, typename Real>
OVERBEND_INLINE void tiles(int m, int k, const Real *a, int lda, const Real *b, int ldb, Real *c,
                           int ldc, int &row)
{
  using Wide = typename Lanes<Real, Bytes>::Wide;
  using Anywhere = typename Lanes<Real, Bytes>::Anywhere;
  constexpr int width = Bytes / sizeof(Real);
  for (; row + Vectors * width <= m; row += Vectors * width) {
    Wide sum[Vectors][C] = {};
    for (int p = 0; p < k; ++p) {
      const Real *const from = column(a, lda, p) + row, *const factor = column(b, ldb, p);
      for (int v = 0; v < Vectors; ++v) {
        const Wide lanes = *reinterpret_cast<const Anywhere *>(from + v * width);
        for (int j = 0; j < C; ++j)
          sum[v][j] += lanes * factor[j];
      }
    }
    for (int j = 0; j < C; ++j)
      for (int v = 0; v < Vectors; ++v) {
        auto &to = *reinterpret_cast<Anywhere *>(column(c, ldc, j) + row + v * width);
        to -= sum[v][j];
      }
  }
}

// c (m x C) -= a (m x k) b^T (k x C).
template <int C, typename Real>
OVERBEND_INLINE void product(int m, int k, const Real *a, int lda, const Real *b, int ldb, Real *c,
                             int ldc)
{
  int row = 0;
  tiles<64, 2, C>(m, k, a, lda, b, ldb, c, ldc, row);
  tiles<64, 1, C>(m, k, a, lda, b, ldb, c, ldc, row);
  tiles<32, 1, C>(m, k, a, lda, b, ldb, c, ldc, row);
  tiles<16, 1, C>(m, k, a, lda, b, ldb, c, ldc, row);
  for (; row < m; ++row)
    for (int j = 0; j < C; ++j) {
      Real sum = 0;
      for (int p = 0; p < k; ++p)
        sum += column(a, lda, p)[row] * column(b, ldb, p)[j];
      column(c, ldc, j)[row] -= sum;
    }
}
} // namespace overbend::solver::dense
