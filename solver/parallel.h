// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <thread>

namespace overbend::solver
{
// Runs work(begin, end) on two halves of 0..n at once. Only for work whose items do not depend on
// each other, so that the result is the same on one thread.
template <typename Work>
void in_two_threads(std::size_t n, const Work &work)
{
  std::thread other([&] { work(n / 2, n); });
  work(0, n / 2);
  other.join();
}
} // namespace overbend::solver
