// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/readings/bench_readings.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
double x_at(const SampledLine &line, int fret)
{
  return line.x[static_cast<std::size_t>(fret)];
}
double z_at(const SampledLine &line, int fret)
{
  return line.z[static_cast<std::size_t>(fret)];
}

void check_line(const SampledLine &line)
{
  if (line.x.size() != line.z.size() || line.x.size() < 2)
    throw std::invalid_argument("a reading line needs as many positions as heights, two at least");
  for (std::size_t i = 0; i < line.x.size(); ++i) {
    if (!std::isfinite(line.x[i]) || !std::isfinite(line.z[i]))
      throw std::invalid_argument("the reading line is not finite at fret " + std::to_string(i));
    if (i > 0 && !(line.x[i] > line.x[i - 1]))
      throw std::invalid_argument("positions do not grow at fret " + std::to_string(i));
  }
}

void check_fret(const SampledLine &line, int fret)
{
  if (fret < 0 || static_cast<std::size_t>(fret) >= line.x.size())
    throw std::invalid_argument("fret " + std::to_string(fret) + " is not on the reading line");
}

void check_rests(const SampledLine &line, int rest_a, int rest_b)
{
  check_line(line);
  check_fret(line, rest_a);
  check_fret(line, rest_b);
  if (rest_a >= rest_b)
    throw std::invalid_argument("rest frets " + std::to_string(rest_a) + " and " +
                                std::to_string(rest_b) + " are in the wrong order");
}

// Height of the line through two frets, at x. Written about its own ends, so that it gives the
// heights of the two frets exactly.
double chord(const SampledLine &line, int a, int b, double x)
{
  const double share = (x - x_at(line, a)) / (x_at(line, b) - x_at(line, a));
  return (1 - share) * z_at(line, a) + share * z_at(line, b);
}

double bow(const SampledLine &line, int fret, int a, int b)
{
  if (fret == a || fret == b)
    return 0;
  return chord(line, a, b, x_at(line, fret)) - z_at(line, fret);
}

// Frets on the upper convex hull of first..last, from left to right (one monotone chain).
std::vector<int> upper_hull(const SampledLine &line, int first, int last)
{
  std::vector<int> hull;
  for (int fret = first; fret <= last; ++fret) {
    while (hull.size() >= 2 && bow(line, hull.back(), hull[hull.size() - 2], fret) >= 0)
      hull.pop_back();
    hull.push_back(fret);
  }
  return hull;
}

// Largest height of the hull over the line through its ends.
double hump_height(const SampledLine &line, const std::vector<int> &hull)
{
  double height = 0;
  for (const int fret : hull)
    height = std::max(height, -bow(line, fret, hull.front(), hull.back()));
  return height;
}

// Gaps of the frets first..last under a polyline through some of them (ends extended). Rounding
// may leave -1e-19 m on a contact; a gap is never negative.
EdgeReading gaps_under(const SampledLine &line, const std::vector<int> &edge, int first, int last)
{
  EdgeReading reading;
  reading.rest_a = edge.front();
  reading.rest_b = edge.back();
  reading.first_fret = first;
  reading.last_fret = last;
  reading.deepest_fret = first;
  std::size_t segment = 1;
  for (int fret = first; fret <= last; ++fret) {
    while (segment + 1 < edge.size() && fret > edge[segment])
      ++segment;
    const double gap = std::max(0., bow(line, fret, edge[segment - 1], edge[segment]));
    reading.gap.push_back(gap);
    if (gap > reading.deepest_gap) {
      reading.deepest_gap = gap;
      reading.deepest_fret = fret;
    }
  }
  return reading;
}

// Vertex of the parabola through a fret and its neighbours, of the bow over the rests.
void refine(const SampledLine &line, DeepestReading &reading)
{
  const int m = reading.fret;
  reading.refined_x = x_at(line, m);
  reading.refined_bow = reading.bow;
  if (m == reading.rest_a || m == reading.rest_b)
    return;
  const double h0 = x_at(line, m) - x_at(line, m - 1), h1 = x_at(line, m + 1) - x_at(line, m);
  const double d0 = (reading.bow - bow(line, m - 1, reading.rest_a, reading.rest_b)) / h0;
  const double d1 = (bow(line, m + 1, reading.rest_a, reading.rest_b) - reading.bow) / h1;
  const double half_curvature = (d1 - d0) / (h0 + h1);
  if (half_curvature == 0)
    return;
  const double slope = d0 + half_curvature * h0;
  const double step = std::clamp(-slope / (2 * half_curvature), -h0, h1);
  reading.refined_x += step;
  reading.refined_bow += slope * step + half_curvature * step * step;
}

int nearest_fret(const SampledLine &line, double x, int first, int last)
{
  int best = first;
  for (int fret = first; fret <= last; ++fret)
    if (std::abs(x_at(line, fret) - x) < std::abs(x_at(line, best) - x))
      best = fret;
  return best;
}

// Curvature of a line of constant curvature that shows this bow.
double curvature(const SampledLine &line, const BowReading &reading)
{
  const double m = x_at(line, reading.fret);
  return 2 * reading.bow / ((m - x_at(line, reading.rest_a)) * (x_at(line, reading.rest_b) - m));
}
} // namespace

SampledLine on_frets(const SampledLine &wood, const std::vector<double> &fret_height)
{
  check_line(wood);
  if (fret_height.size() != wood.z.size())
    throw std::invalid_argument("there must be one fret height for each point of the line");
  SampledLine tops = wood;
  for (std::size_t i = 0; i < tops.z.size(); ++i)
    tops.z[i] += fret_height[i];
  check_line(tops);
  return tops;
}

BowReading bow_at_fret(const SampledLine &line, int fret, int rest_a, int rest_b)
{
  check_rests(line, rest_a, rest_b);
  check_fret(line, fret);
  return {rest_a, rest_b, fret, bow(line, fret, rest_a, rest_b)};
}

double rise_at_fret(const SampledLine &line, int fret, int rest_a, int rest_b)
{
  return -bow_at_fret(line, fret, rest_a, rest_b).bow;
}

DeepestReading deepest(const SampledLine &line, int rest_a, int rest_b, Direction direction)
{
  check_rests(line, rest_a, rest_b);
  DeepestReading reading{rest_a, rest_b, rest_a, 0, x_at(line, rest_a), 0};
  for (int fret = rest_a + 1; fret < rest_b; ++fret) {
    const double here = bow(line, fret, rest_a, rest_b);
    const bool asked =
        direction == Direction::either || (direction == Direction::forward) == (here > 0);
    if (asked && std::abs(here) > std::abs(reading.bow)) {
      reading.fret = fret;
      reading.bow = here;
    }
  }
  refine(line, reading);
  return reading;
}

EdgeReading straightedge(const SampledLine &line, int start_fret, double length)
{
  check_line(line);
  check_fret(line, start_fret);
  if (!(length > 0) || !std::isfinite(length))
    throw std::invalid_argument("the straightedge needs a length greater than zero");
  const double end = x_at(line, start_fret) + length, middle = x_at(line, start_fret) + length / 2;
  const int last_fret = static_cast<int>(line.x.size()) - 1;
  int last = start_fret;
  // An edge as long as the distance of two frets reaches the second one, whatever the rounding.
  while (last < last_fret && x_at(line, last + 1) <= end + 1e-9)
    ++last;
  if (last == start_fret || middle > x_at(line, last))
    throw std::invalid_argument("a straightedge of " + std::to_string(length * 1e3) +
                                " mm from fret " + std::to_string(start_fret) +
                                " does not rest on the line");
  const std::vector<int> hull = upper_hull(line, start_fret, last);
  std::size_t right = 1;
  while (right + 1 < hull.size() && x_at(line, hull[right]) < middle)
    ++right;
  EdgeReading reading = gaps_under(line, {hull[right - 1], hull[right]}, start_fret, last);
  reading.hump = hump_height(line, hull);
  return reading;
}

double edge_carried_to(const SampledLine &line, int start_fret, double x)
{
  const int last = static_cast<int>(line.x.size()) - 1;
  check_rests(line, start_fret, last);
  if (!(x > x_at(line, last)) || !std::isfinite(x))
    throw std::invalid_argument("an edge is carried on beyond the last fret");
  const double middle = (x_at(line, start_fret) + x) / 2;
  const std::vector<int> hull = upper_hull(line, start_fret, last);
  std::size_t right = 1;
  // From fret 1 to the bridge the middle is fret 13 by the rule of the frets: what lies under it
  // counts as on the nut side, whatever the rounding, so that the edge lies on towards the bridge.
  constexpr double rounding = 1e-9;
  while (right + 1 < hull.size() && x_at(line, hull[right]) < middle + rounding)
    ++right;
  return chord(line, hull[right - 1], hull[right], x);
}

EdgeReading string_held_down(const SampledLine &line, int first_fret, int last_fret)
{
  check_rests(line, first_fret, last_fret);
  const std::vector<int> hull = upper_hull(line, first_fret, last_fret);
  EdgeReading reading = gaps_under(line, hull, first_fret, last_fret);
  reading.hump = hump_height(line, hull);
  return reading;
}

RockingReading rocking_gaps(const SampledLine &line, int first_fret, int last_fret)
{
  check_rests(line, first_fret, last_fret);
  RockingReading reading{first_fret, last_fret, first_fret, 0, {}};
  for (int fret = first_fret; fret <= last_fret; ++fret) {
    const double height = -bow(line, fret, first_fret, last_fret);
    if (height > reading.end_gap) {
      reading.end_gap = height;
      reading.hump_fret = fret;
    }
  }
  for (int fret = first_fret; fret <= last_fret; ++fret)
    reading.gap.push_back(reading.end_gap + bow(line, fret, first_fret, last_fret));
  return reading;
}

TwistReading winding_sticks(const StickStation &nut_side, const StickStation &body_side,
                            double nut_width, double stick_length)
{
  for (const StickStation &station : {nut_side, body_side})
    if (!(station.distance > 0) || !std::isfinite(station.bass_height + station.treble_height))
      throw std::invalid_argument("winding stick at fret " + std::to_string(station.fret) +
                                  " needs two finite heights a distance apart");
  const auto tilt = [](const StickStation &station) {
    return std::atan2(station.treble_height - station.bass_height, station.distance);
  };
  TwistReading reading;
  reading.nut_side_fret = nut_side.fret;
  reading.body_side_fret = body_side.fret;
  reading.angle = tilt(nut_side) - tilt(body_side);
  reading.stick_length = stick_length;
  reading.over_sticks = stick_length * std::sin(reading.angle);
  reading.across_nut = nut_width * std::sin(reading.angle);
  return reading;
}

KinkReading kink(const SampledLine &line, int first_fret, int middle_fret, int last_fret)
{
  check_rests(line, first_fret, middle_fret);
  check_rests(line, middle_fret, last_fret);
  if (middle_fret - first_fret < 2 || last_fret - middle_fret < 2)
    throw std::invalid_argument("each half of a kink reading needs a fret inside it");
  const auto half = [&](int a, int b) {
    const int m = nearest_fret(line, (x_at(line, a) + x_at(line, b)) / 2, a + 1, b - 1);
    return bow_at_fret(line, m, a, b);
  };
  KinkReading reading;
  reading.first_fret = first_fret;
  reading.middle_fret = middle_fret;
  reading.last_fret = last_fret;
  reading.whole = bow_at_fret(line, middle_fret, first_fret, last_fret);
  reading.nut_half = half(first_fret, middle_fret);
  reading.body_half = half(middle_fret, last_fret);
  const double before = x_at(line, middle_fret) - x_at(line, first_fret);
  const double after = x_at(line, last_fret) - x_at(line, middle_fret);
  const double smooth =
      before * after / (2 * (before + after)) *
      (curvature(line, reading.nut_half) * before + curvature(line, reading.body_half) * after);
  reading.kink = reading.whole.bow - smooth;
  reading.angle = reading.kink * (before + after) / (before * after);
  return reading;
}
} // namespace overbend::solver
