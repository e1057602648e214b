// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/pad_springs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double least_towards = 0.5; // of the normal: a surface bears where it looks so much
constexpr double same_place = 1e-7;   // m
constexpr double least_part = 1e-9;   // of a face, a narrower cut bears nothing
constexpr double no_weight = 1e-12;   // of a shape function at another node
constexpr unsigned bisections = 50;   // to rounding
constexpr double lobatto_point[3] = {0, 0.5, 1}, lobatto_weight[3] = {1. / 6, 4. / 6, 1. / 6};

struct Interval
{
  double from = 0, to = 0;
  double at(unsigned point) const { return from + (to - from) * lobatto_point[point]; }
  double length() const { return to - from; }
};

std::array<double, 3> shapes(double t)
{
  return {(2 * t - 1) * (t - 1), 4 * t * (1 - t), t * (2 * t - 1)};
}
std::array<double, 3> slopes(double t)
{
  return {4 * t - 3, 4 - 8 * t, 4 * t - 1};
}

// Where `inside` changes over between a place where it holds and one where it does not.
template <typename Inside>
double border(double holds, double fails, const Inside &inside)
{
  for (unsigned i = 0; i < bisections; ++i) {
    const double middle = (holds + fails) / 2;
    (inside(middle) ? holds : fails) = middle;
  }
  return holds;
}

// A quadratic face with one direction along the neck (l) and one across (c), both 0..1.
class QuadraticFace
{
public:
  QuadraticFace(const Space &space_, const BoundaryFace &face_, double up_)
      : space(space_), face(face_), up(up_)
  {
    const auto run = [&](unsigned a, unsigned b) {
      return std::abs(space.position[face.node[a]][0] - space.position[face.node[b]][0]);
    };
    first_is_along = run(5, 3) >= run(7, 1);
    outward = normal(0.5, 0.5)[2] * face.normal[4][2] < 0 ? -1 : 1;
  }

  unsigned node(unsigned l, unsigned c) const
  {
    return face.node[first_is_along ? l + 3 * c : c + 3 * l];
  }

  Vec3 position(double l, double c) const { return sum(shapes(l), shapes(c)); }

  // Normal times the area of a unit of l and c.
  Vec3 normal(double l, double c) const
  {
    const Vec3 a = sum(slopes(l), shapes(c)), b = sum(shapes(l), slopes(c));
    return {outward * (a[1] * b[2] - a[2] * b[1]), outward * (a[2] * b[0] - a[0] * b[2]),
            outward * (a[0] * b[1] - a[1] * b[0])};
  }

  // Across: the part that looks towards the pad.
  Interval looks_towards() const
  {
    const auto towards = [&](double c) {
      const Vec3 n = normal(0.5, c);
      return up * n[2] >= least_towards * std::sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
    };
    const bool first = towards(0), last = towards(1);
    if (first && last)
      return {0, 1};
    if (first || last)
      return first ? Interval{0, border(0, 1, towards)} : Interval{border(1, 0, towards), 1};
    return towards(0.5) ? Interval{border(0.5, 0, towards), border(0.5, 1, towards)} : Interval{};
  }

  // Along at c: the part between two places along the neck.
  Interval between(double from, double to, double c) const
  {
    const auto x = [&](double l) { return position(l, c)[0]; };
    const bool rises = x(1) >= x(0);
    const auto reach = [&](double limit) {
      const double low = rises ? 0 : 1, high = 1 - low;
      if (x(low) >= limit)
        return low;
      if (x(high) <= limit)
        return high;
      return border(low, high, [&](double l) { return x(l) <= limit; });
    };
    const double a = reach(from), b = reach(to);
    return {std::min(a, b), std::max(a, b)};
  }

private:
  Vec3 sum(const std::array<double, 3> &along, const std::array<double, 3> &across) const
  {
    Vec3 result{};
    for (unsigned l = 0; l < 3; ++l)
      for (unsigned c = 0; c < 3; ++c)
        for (unsigned i = 0; i < 3; ++i)
          result[i] += along[l] * across[c] * space.position[node(l, c)][i];
    return result;
  }

  const Space &space;
  const BoundaryFace &face;
  double up; // 1 for a surface that looks up, -1 for one that looks down
  bool first_is_along = true;
  double outward = 1;
};

Row towards_at(const QuadraticFace &face, double l, double c, double up)
{
  Row row;
  const auto along = shapes(l), across = shapes(c);
  for (unsigned i = 0; i < 3; ++i)
    for (unsigned j = 0; j < 3; ++j)
      if (std::abs(along[i] * across[j]) > no_weight)
        row.emplace_back(3 * face.node(i, j) + 2, up * along[i] * across[j]);
  return row;
}

void add(const PadPoint &point, std::vector<PadPoint> &points)
{
  for (PadPoint &p : points) {
    double distance = 0;
    for (unsigned i = 0; i < 3; ++i)
      distance = std::max(distance, std::abs(p.position[i] - point.position[i]));
    if (distance < same_place) {
      p.area += point.area;
      return;
    }
  }
  points.push_back(point);
}
} // namespace

std::vector<PadPoint> pad_points(const Space &space, unsigned face_id, double from, double to,
                                 PadSide side)
{
  std::vector<PadPoint> points;
  const auto faces = space.boundary.find(face_id);
  if (faces == space.boundary.end())
    return points;
  const double up = side == PadSide::above ? 1 : -1;
  for (const BoundaryFace &one : faces->second) {
    const QuadraticFace face(space, one, up);
    const Interval across = face.looks_towards();
    if (across.length() < least_part)
      continue;
    for (unsigned j = 0; j < 3; ++j) {
      const double c = across.at(j);
      const Interval along = face.between(from, to, c);
      if (along.length() < least_part)
        continue;
      for (unsigned i = 0; i < 3; ++i) {
        const double l = along.at(i);
        const double area = std::abs(face.normal(l, c)[2]) * across.length() * along.length() *
                            lobatto_weight[i] * lobatto_weight[j];
        add({face.position(l, c), towards_at(face, l, c, up), area}, points);
      }
    }
  }
  return points;
}

Row mean_towards(const std::vector<PadPoint> &points, double x)
{
  double area = 0, first = 0, second = 0;
  for (const PadPoint &p : points) {
    area += p.area;
    first += p.area * p.position[0];
  }
  if (!(area > 0))
    throw std::logic_error("a pad meets nothing of the neck");
  const double mean = first / area;
  for (const PadPoint &p : points)
    second += p.area * (p.position[0] - mean) * (p.position[0] - mean);
  const double slope = (x - mean) * area / second;
  Row row;
  for (const PadPoint &p : points) {
    const double weight = p.area / area * (1 + slope * (p.position[0] - mean));
    if (!(weight >= 0))
      throw std::logic_error("a pad lies beside the place it is to press");
    row = combine(row, p.towards, weight);
  }
  return row;
}
} // namespace overbend::solver
