// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/blas.h"

#include <dlfcn.h>
#include <unistd.h>

#include <cstdlib>
#include <string>

namespace overbend::solver
{
namespace
{
constexpr const char *choice_of_kernels = "OPENBLAS_CORETYPE";
// CHOLMOD opens four threads of OpenMP for each of its supernodes, whatever OMP_NUM_THREADS says;
// on necks their coming and going costs more than the work (a third of a plan's time on two busy
// cores). Only this variable, read when the library is loaded, keeps them away.
constexpr const char *thread_limit = "OMP_THREAD_LIMIT";

template <typename Function>
Function *find(const char *name)
{
  return reinterpret_cast<Function *>(dlsym(RTLD_DEFAULT, name));
}

// OpenBLAS's name for the best kernels that this processor's instructions allow; empty: its own
// choice is as good.
std::string fitting_kernels()
{
#if defined(__x86_64__)
  auto *const chosen = find<char *()>("openblas_get_corename");
  if (chosen == nullptr || std::string(chosen()) != "Prescott")
    return "";
  const bool avx512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw") &&
                      __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512vl");
  if (avx512)
    return "SkylakeX";
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma"))
    return "Haswell";
#endif
  return "";
}
} // namespace

void pin_blas_to_one_thread()
{
  if (auto *const set = find<void(int)>("openblas_set_num_threads"))
    set(1);
}

void restart_with_fitting_blas_kernels(char **argv)
{
  const bool limited = std::getenv(thread_limit) != nullptr;
  const std::string kernels =
      std::getenv(choice_of_kernels) == nullptr ? fitting_kernels() : std::string();
  if (limited && kernels.empty())
    return;
  if (!limited)
    setenv(thread_limit, "1", 1);
  if (!kernels.empty())
    setenv(choice_of_kernels, kernels.c_str(), 1);
  execv("/proc/self/exe", argv); // where it cannot, we go on: slower, not wrong
}
} // namespace overbend::solver
