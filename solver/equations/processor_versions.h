// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Marks a function that is compiled once for each family of processors; which one runs is found out
// when the program starts. Debian's packages ask for no more than the instructions of 2003, and the
// wide ones are worth two to four times in a loop over numbers. On one processor it is always the
// same version, so bytes stay what they are from run to run.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__) &&    \
    !defined(__SANITIZE_ADDRESS__)
#define OVERBEND_PROCESSOR_VERSIONS __attribute__((target_clones("avx512f", "fma", "default")))
#else
#define OVERBEND_PROCESSOR_VERSIONS
#endif

// What such a function calls has to be compiled with it.
#define OVERBEND_INLINE inline __attribute__((always_inline))
