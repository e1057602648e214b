// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/grading.h"

#include <algorithm>
#include <cmath>

namespace overbend::mesh
{
double SizeField::at(double x) const
{
  double size = largest;
  for (const auto &mark : marks)
    size = std::min(size, mark.size + growth * std::abs(x - mark.x));
  return size;
}

std::vector<double> stations(const SizeField &field, double from, double to, unsigned cells,
                             unsigned fewest)
{
  constexpr unsigned samples = 2000;
  const double step = (to - from) / samples;
  std::vector<double> sum(samples + 1, 0.0); // integral of dx/h up to each sample
  for (unsigned i = 0; i < samples; ++i)
    sum[i + 1] = sum[i] + step / field.at(from + (i + 0.5) * step);
  if (cells == 0)
    cells = std::max(fewest, static_cast<unsigned>(std::lround(sum.back())));
  std::vector<double> x(cells + 1);
  unsigned i = 0;
  for (unsigned c = 0; c <= cells; ++c) {
    const double wanted = sum.back() * c / cells;
    while (i + 1 < samples && sum[i + 1] < wanted)
      ++i;
    x[c] = from + step * (i + (wanted - sum[i]) / (sum[i + 1] - sum[i]));
  }
  x.front() = from;
  x.back() = to;
  return x;
}

std::vector<double> graded_lines(unsigned cells, double decline)
{
  const auto end = [=](unsigned i) {
    const double share = static_cast<double>(i) / cells;
    return decline == 1 ? share : (1 - std::pow(decline, share)) / (1 - decline);
  };
  std::vector<double> lines = {0};
  for (unsigned i = 0; i < cells; ++i) {
    lines.push_back(0.5 * (end(i) + end(i + 1)));
    lines.push_back(end(i + 1));
  }
  return lines;
}
} // namespace overbend::mesh
