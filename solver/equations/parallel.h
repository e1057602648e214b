// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/second_thread.h"

#include <cstddef>
#include <vector>

namespace overbend::solver
{
// Runs work(begin, end) on two halves of 0..n at once. Only for work whose items do not depend on
// each other, so that the result is the same on one thread.
template <typename Work>
void in_two_threads(std::size_t n, const Work &work)
{
  at_once([&] { work(0, n / 2); }, [&] { work(n / 2, n); });
}

// The same for work(begin, end, sum) that adds into a vector: the second half adds into one of its
// own, which is added last, so that the sums come out in the same order each time.
template <typename Work>
void add_in_two_threads(std::size_t n, std::vector<double> &sum, const Work &work)
{
  std::vector<double> of_second_half(sum.size(), 0.);
  at_once([&] { work(0, n / 2, sum); }, [&] { work(n / 2, n, of_second_half); });
  for (std::size_t i = 0; i < sum.size(); ++i)
    sum[i] += of_second_half[i];
}
} // namespace overbend::solver
