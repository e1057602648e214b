// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/blas.h"

#include <dlfcn.h>

namespace overbend::solver
{
void pin_blas_to_one_thread()
{
  using SetThreads = void(int);
  if (auto *const set =
          reinterpret_cast<SetThreads *>(dlsym(RTLD_DEFAULT, "openblas_set_num_threads")))
    set(1);
}
} // namespace overbend::solver
