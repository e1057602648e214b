// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/grading.h"

#include <algorithm>
#include <cmath>

namespace overbend::mesh
{
std::vector<double> stations(const Grading &grading, unsigned cells, unsigned fewest)
{
  constexpr unsigned samples = 4000;
  const double length = grading.to - grading.from;
  const double step = length / samples;
  std::vector<double> sum(samples + 1, 0.0); // integral of dx/h up to each sample
  for (unsigned i = 0; i < samples; ++i) {
    const double s = (i + 0.5) * step;
    const double h = std::min({grading.largest, grading.first + grading.growth * s,
                               grading.last + grading.growth * (length - s)});
    sum[i + 1] = sum[i] + step / h;
  }
  if (cells == 0)
    cells = std::max(fewest, static_cast<unsigned>(std::lround(sum.back())));
  std::vector<double> x(cells + 1);
  unsigned i = 0;
  for (unsigned c = 0; c <= cells; ++c) {
    const double wanted = sum.back() * c / cells;
    while (i + 1 < samples && sum[i + 1] < wanted)
      ++i;
    x[c] = grading.from + step * (i + (wanted - sum[i]) / (sum[i + 1] - sum[i]));
  }
  x.front() = grading.from;
  x.back() = grading.to;
  return x;
}
} // namespace overbend::mesh
