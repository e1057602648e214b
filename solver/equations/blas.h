// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the program asks of the BLAS it was linked with. All of it does nothing for another BLAS
// than OpenBLAS.
namespace overbend::solver
{
// One thread: sums come out in the same order each time, whatever the machine has, and at the sizes
// of a neck a second thread gains a quarter of the factorisation and nothing else.
void pin_blas_to_one_thread();

// OpenBLAS knows processors by their model number, and one that is younger than the library gets
// the kernels of 2004 (measured: a plan takes 1.6 times as long). If so, starts the program anew
// with the kernels for the instructions the processor has; then it does not return. A choice that
// the user made in OPENBLAS_CORETYPE stays. It also keeps OpenMP to one thread (OMP_THREAD_LIMIT), if
// nobody has set that.
void restart_with_fitting_blas_kernels(char **argv);
} // namespace overbend::solver
