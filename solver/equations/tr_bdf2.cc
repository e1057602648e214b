// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/tr_bdf2.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver::tr_bdf2
{
namespace
{
// Second-order minus embedded third-order weights of the three rates.
const double error_weight[3] = {(1 - shared) / 3 - shared, (3 * shared + 1) / 3 - shared,
                                diagonal / 3 - diagonal};
} // namespace

void add(std::vector<double> &y, double factor, const std::vector<double> &x)
{
  for (std::size_t i = 0; i < x.size(); ++i)
    y[i] += factor * x[i];
}

std::vector<double> rate(const SparseMatrix &K, const std::vector<double> &load,
                         const std::vector<double> &y)
{
  std::vector<double> flow(y.size(), 0.);
  K.add_times(y, flow);
  for (std::size_t i = 0; i < flow.size(); ++i)
    flow[i] = load[i] - flow[i];
  return flow;
}

void run(const Factor &factor, const SparseMatrix &K, double dt, const std::vector<double> &now,
         const std::vector<double> &load1, const std::vector<double> &load2, Stages &s)
{
  std::vector<double> change(now.size(), 0.);
  add(change, diagonal * dt, s.rate0);
  add(change, diagonal * dt, rate(K, load1, now));
  factor.solve(change);
  s.at1 = now;
  add(s.at1, 1, change);

  std::fill(change.begin(), change.end(), 0.);
  add(change, shared * dt, s.rate0);
  add(change, shared * dt, rate(K, load1, s.at1));
  add(change, diagonal * dt, rate(K, load2, now));
  factor.solve(change);
  s.at2 = now;
  add(s.at2, 1, change);
}

Judgement judge(const Factor &factor, double dt, const std::vector<double> &now, const Stages &s)
{
  std::vector<double> error(now.size(), 0.);
  add(error, dt * error_weight[0], s.rate0);
  add(error, dt * error_weight[1], s.rate1);
  add(error, dt * error_weight[2], s.rate2);
  factor.solve(error);
  Judgement found;
  double sum = 0;
  for (std::size_t i = 0; i < now.size(); ++i) {
    const double straight = now[i] + first_stage * (s.at2[i] - now[i]);
    found.error = std::max(found.error, std::abs(error[i]));
    found.bulge = std::max(found.bulge, std::abs(s.at1[i] - straight));
    sum += s.at2[i] + error[i];
  }
  if (!std::isfinite(sum))
    throw std::runtime_error("a value at the end of the step is not a finite number");
  return found;
}
} // namespace overbend::solver::tr_bdf2
