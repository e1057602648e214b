// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/line_fit.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace overbend::solver
{
namespace
{
constexpr unsigned most_refined = 2;
// A line that reads as close as this share of what a reading may be off is the one.
constexpr double close_enough = 0.2;

// Place of a reading on straight lines between those known, from slow (front) to fast.
double place_of(double bow, const std::map<double, double> &known)
{
  auto fast = std::next(known.begin());
  while (std::next(fast) != known.end() && fast->second > bow)
    ++fast;
  const auto slow = std::prev(fast);
  const double way = slow->second - fast->second;
  if (!(way > 0))
    return slow->first;
  const double share = std::clamp((slow->second - bow) / way, 0., 1.);
  return slow->first + share * (fast->first - slow->first);
}
} // namespace

LineFit fit_line(double read, double open, const std::function<double(double)> &reads)
{
  std::map<double, double> known; // bow by place
  for (const double place : {-1., 0., 1.})
    known[place] = reads(place);
  LineFit fit;
  fit.read = read;
  fit.slowest = known.begin()->second;
  fit.fastest = known.rbegin()->second;
  fit.slower_than_any = read > fit.slowest + open;
  fit.faster_than_any = read < fit.fastest - open;
  for (unsigned round = 0; round < most_refined; ++round) {
    const double place = place_of(read, known);
    if (known.count(place) > 0)
      break;
    known[place] = reads(place);
    if (std::abs(known[place] - read) < close_enough * open)
      break;
  }
  fit.place = place_of(read, known);
  fit.slow = place_of(read + open, known);
  fit.fast = place_of(read - open, known);
  return fit;
}
} // namespace overbend::solver
