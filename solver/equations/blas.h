// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace overbend::solver
{
// Asks the BLAS that libraries brought along for one thread, so that its sums come out in the same
// order each time. Nothing for another BLAS than OpenBLAS; the equations of the neck use none
// (dense_blocks.h).
void pin_blas_to_one_thread();
} // namespace overbend::solver
