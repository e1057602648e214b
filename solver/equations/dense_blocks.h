// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Dense work on one supernode of a Cholesky factor: a block of n_columns columns of n_rows rows,
// stored by columns; the first n_columns rows are a lower triangle L1, the rows below it L2. Each
// comes in single and in double precision.
namespace overbend::solver
{
struct BlockSize
{
  int n_rows, n_columns;
  int n_below() const { return n_rows - n_columns; }
};

// The block as assembled becomes the block of the factor. False if a pivot is not positive.
bool factorise_block(BlockSize size, float *block);
bool factorise_block(BlockSize size, double *block);

// Lower triangle of update (n_below x n_below) -= L2 L2^T; right of it nothing counts.
void subtract_square(BlockSize size, const float *block, float *update);
void subtract_square(BlockSize size, const double *block, double *update);

// own = L1^-1 own, then below -= L2 own.
void sweep_forward(BlockSize size, const float *block, float *own, float *below);
void sweep_forward(BlockSize size, const double *block, double *own, double *below);

// own = L1^-T (own - L2^T below).
void sweep_backward(BlockSize size, const float *block, float *own, const float *below);
void sweep_backward(BlockSize size, const double *block, double *own, const double *below);
} // namespace overbend::solver
