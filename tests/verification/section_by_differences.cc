// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/section_by_differences.h"

#include <algorithm>
#include <cmath>

namespace overbend::tests
{
namespace
{
constexpr double zero = 273.15, sigma = 5.670374e-8;
}

// Air of the height between a flat bar and a round board: conduction and radiation side by side,
// in series with the contact.
double SectionByDifferences::contact_at(double y) const
{
  if (radius == 0)
    return contact;
  const double gap = radius - std::sqrt(radius * radius - y * y);
  if (gap < 1e-12)
    return contact;
  return 1 / (1 / contact + 1 / (0.026 / gap + 5));
}

double SectionByDifferences::upwards(unsigned j) const
{
  const double halves = h / 2 / k(j) + h / 2 / k(j + 1);
  return 1 / (j + 1 == below() ? halves + 1 / glue : halves);
}

// W/(m^2 K) from a face at a temperature into the air.
double SectionByDifferences::outside(double surface, bool wrapped) const
{
  const double Ts = surface + zero, Ta = air + zero;
  if (wrapped && wrap > 0)
    return 1 / (1 / (film + 4 * emissivity * sigma * Ta * Ta * Ta) + 1 / wrap);
  return film + emissivity * sigma * (Ts * Ts + Ta * Ta) * (Ts + Ta);
}

std::vector<double> SectionByDifferences::solve(double bar) const
{
  const unsigned n = ny(), m = nz();
  std::vector<double> T(n * m, (bar + air) / 2);
  const auto lose = [&](double here, double conductivity, bool wrapped) {
    double surface = here, total = 0;
    for (unsigned pass = 0; pass < 3; ++pass) { // the film hangs on the surface's own temperature
      const double out = outside(surface, wrapped);
      total = 1 / (h / 2 / conductivity + 1 / out);
      surface = air + total * (here - air) / out;
    }
    return total;
  };
  for (unsigned sweep = 0; sweep < 20000; ++sweep) {
    double change = 0;
    for (unsigned j = 0; j < m; ++j)
      for (unsigned i = 0; i < n; ++i) {
        double &here = T[j * n + i];
        double sum = 0, flow = 0;
        const auto to = [&](double conductance, double other) {
          sum += conductance;
          flow += conductance * other;
        };
        if (i > 0)
          to(k(j) / h, T[j * n + i - 1]);
        if (i + 1 < n)
          to(k(j) / h, T[j * n + i + 1]);
        else
          to(lose(here, k(j), true), air);
        if (j > 0)
          to(upwards(j - 1), T[(j - 1) * n + i]);
        else
          to(lose(here, k(j), true), air);
        const double y = (i + 0.5) * h;
        if (j + 1 < m)
          to(upwards(j), T[(j + 1) * n + i]);
        else if (y < bar_width / 2)
          to(1 / (h / 2 / k(j) + 1 / contact_at(y)), bar);
        else
          to(lose(here, k(j), true), air);
        const double next = here + 1.9 * (flow / sum - here);
        change = std::max(change, std::abs(next - here));
        here = next;
      }
    if (change < 1e-8)
      break;
  }
  return T;
}

double SectionByDifferences::heat_from_bar(const std::vector<double> &T, double bar) const
{
  double heat = 0;
  const unsigned n = ny(), top = nz() - 1;
  for (unsigned i = 0; (i + 0.5) * h < bar_width / 2; ++i)
    heat += 2 * h * (bar - T[top * n + i]) / (h / 2 / k(top) + 1 / contact_at((i + 0.5) * h));
  return heat;
}

// Mean of both sides of the line, each by the heat that flows through it.
double SectionByDifferences::line_at(const std::vector<double> &T, unsigned i) const
{
  const unsigned j = below() - 1;
  const double low = T[j * ny() + i], high = T[(j + 1) * ny() + i],
               flow = upwards(j) * (high - low);
  return (low + flow * h / 2 / k(j) + high - flow * h / 2 / k(j + 1)) / 2;
}

double SectionByDifferences::line_centre(const std::vector<double> &T) const
{
  return line_at(T, 0);
}

double SectionByDifferences::line_edge(const std::vector<double> &T) const
{
  return line_at(T, ny() - 1);
}

double SectionByDifferences::line_mean(const std::vector<double> &T) const
{
  double sum = 0;
  for (unsigned i = 0; i < ny(); ++i)
    sum += line_at(T, i);
  return sum / ny();
}
} // namespace overbend::tests
