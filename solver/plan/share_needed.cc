// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/share_needed.h"

#include "cases/case/first_pass.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double shares[] = {0.01, 0.99}; // between which it is looked for
constexpr unsigned halvings = 30;
} // namespace

bool rod_pulls_forward(const cases::Case &c)
{
  const cases::Rod &rod = c.neck.rod;
  const bool works = rod.state == cases::RodState::slack || rod.state == cases::RodState::set;
  return rod.kind == cases::RodKind::two_way && works;
}

double least_of_fast_line(const cases::Case &c, const materials::WorkLimits &limits)
{
  return rod_pulls_forward(c) ? limits.least_strung - limits.rod_forward : limits.least_strung;
}

double share_needed(const cases::Case &c, const materials::WorkLimits &limits, double lift,
                    double rho)
{
  const double r = std::abs(cases::as_it_stands(c).found.bow_centre), end = c.target.relief - lift,
               furthest = limits.most_overbend(c.neck.scale_length);
  if (r <= end)
    return 0;
  if (c.first_pass.done())
    return (r - end) / (r + furthest);
  const double first_way =
      std::min(r + furthest, (r + lift - least_of_fast_line(c, limits)) / (1 - rho));
  const auto left = [&](double k) {
    const double between = r - k * first_way;
    return between - k * (between + furthest) - end;
  };
  double few = shares[0], many = shares[1];
  for (unsigned i = 0; i < halvings; ++i) {
    const double half = (few + many) / 2;
    (left(half) > 0 ? few : many) = half;
  }
  return many;
}
} // namespace overbend::solver
