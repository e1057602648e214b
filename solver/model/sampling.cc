// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/sampling.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace overbend::solver
{
namespace
{
template <unsigned dim>
using Coordinates = std::array<double, dim>;

// A quadratic patch of a line's square or cube: 3^dim nodes in lexicographic order.
template <unsigned dim>
struct Patch
{
  static constexpr unsigned n_nodes = dim == 2 ? nodes_per_face : nodes_per_cell;
  std::array<Coordinates<dim>, n_nodes> node;
};

template <unsigned dim>
struct Mapped
{
  Coordinates<dim> place{};
  std::array<Coordinates<dim>, dim> slope{}; // slope[unit direction]
};

void shapes(double t, double value[3], double slope[3])
{
  value[0] = (2 * t - 1) * (t - 1);
  value[1] = 4 * t * (1 - t);
  value[2] = t * (2 * t - 1);
  slope[0] = 4 * t - 3;
  slope[1] = 4 - 8 * t;
  slope[2] = 4 * t - 1;
}

template <unsigned dim>
std::vector<double> weights(const Coordinates<dim> &unit)
{
  double v[3][3], s[3][3];
  for (unsigned d = 0; d < dim; ++d)
    shapes(unit[d], v[d], s[d]);
  std::vector<double> result(Patch<dim>::n_nodes, 1.);
  for (unsigned a = 0; a < result.size(); ++a)
    for (unsigned d = 0, n = a; d < dim; ++d, n /= 3)
      result[a] *= v[d][n % 3];
  return result;
}

template <unsigned dim>
Mapped<dim> map(const Patch<dim> &patch, const Coordinates<dim> &unit)
{
  double v[3][3], s[3][3];
  for (unsigned d = 0; d < dim; ++d)
    shapes(unit[d], v[d], s[d]);
  Mapped<dim> result;
  for (unsigned a = 0; a < Patch<dim>::n_nodes; ++a) {
    unsigned index[3] = {a % 3, a / 3 % 3, a / 9};
    double value = 1;
    Coordinates<dim> gradient;
    gradient.fill(1);
    for (unsigned d = 0; d < dim; ++d) {
      value *= v[d][index[d]];
      for (unsigned e = 0; e < dim; ++e)
        gradient[e] *= e == d ? s[d][index[d]] : v[d][index[d]];
    }
    for (unsigned i = 0; i < dim; ++i) {
      result.place[i] += value * patch.node[a][i];
      for (unsigned e = 0; e < dim; ++e)
        result.slope[e][i] += gradient[e] * patch.node[a][i];
    }
  }
  return result;
}

template <unsigned dim>
double squared_distance(const Coordinates<dim> &a, const Coordinates<dim> &b)
{
  double sum = 0;
  for (unsigned i = 0; i < dim; ++i)
    sum += (a[i] - b[i]) * (a[i] - b[i]);
  return sum;
}

// A small symmetric positive definite system by elimination.
template <unsigned dim>
Coordinates<dim> solve(std::array<Coordinates<dim>, dim> a, Coordinates<dim> b)
{
  for (unsigned k = 0; k < dim; ++k)
    for (unsigned i = k + 1; i < dim; ++i) {
      const double f = a[i][k] / a[k][k];
      for (unsigned j = k; j < dim; ++j)
        a[i][j] -= f * a[k][j];
      b[i] -= f * b[k];
    }
  for (unsigned k = dim; k-- > 0;) {
    for (unsigned j = k + 1; j < dim; ++j)
      b[k] -= a[k][j] * b[j];
    b[k] /= a[k][k];
  }
  return b;
}

template <unsigned dim>
struct Nearest
{
  Coordinates<dim> unit{};
  double distance = 0;
};

// Damped Gauss-Newton step towards the point; a coordinate at its bound that wants to leave stays.
template <unsigned dim>
Coordinates<dim> step_towards(const Mapped<dim> &at, const Coordinates<dim> &point,
                              const Coordinates<dim> &unit, double damping)
{
  Coordinates<dim> pull{};
  std::array<Coordinates<dim>, dim> matrix{};
  double trace = 0;
  for (unsigned d = 0; d < dim; ++d) {
    for (unsigned i = 0; i < dim; ++i)
      pull[d] += at.slope[d][i] * (point[i] - at.place[i]);
    for (unsigned e = 0; e < dim; ++e)
      for (unsigned i = 0; i < dim; ++i)
        matrix[d][e] += at.slope[d][i] * at.slope[e][i];
    trace += matrix[d][d];
  }
  for (unsigned d = 0; d < dim; ++d) {
    matrix[d][d] += damping * trace;
    if ((unit[d] <= 0 && pull[d] < 0) || (unit[d] >= 1 && pull[d] > 0)) {
      for (unsigned e = 0; e < dim; ++e)
        matrix[d][e] = matrix[e][d] = 0;
      matrix[d][d] = 1;
      pull[d] = 0;
    }
  }
  return solve<dim>(matrix, pull);
}

// The nearest point of a patch within its unit bounds.
template <unsigned dim>
Nearest<dim> nearest_in(const Patch<dim> &patch, const Coordinates<dim> &point)
{
  Coordinates<dim> unit;
  unit.fill(0.5);
  Mapped<dim> at = map<dim>(patch, unit);
  double best = squared_distance<dim>(at.place, point), damping = 1e-12;
  for (unsigned iteration = 0; iteration < 100 && damping < 1e6; ++iteration) {
    const Coordinates<dim> step = step_towards<dim>(at, point, unit, damping);
    Coordinates<dim> trial = unit;
    double moved = 0;
    for (unsigned d = 0; d < dim; ++d) {
      trial[d] = std::clamp(unit[d] + step[d], 0., 1.);
      moved = std::max(moved, std::abs(trial[d] - unit[d]));
    }
    if (moved < 1e-13)
      break;
    const Mapped<dim> there = map<dim>(patch, trial);
    const double now = squared_distance<dim>(there.place, point);
    if (now < best) {
      unit = trial;
      at = there;
      best = now;
      damping = std::max(damping / 10, 1e-12);
    } else
      damping *= 10;
  }
  return {unit, std::sqrt(best)};
}

// Lower bound of the distance to a patch: its box of nodes, widened because edges may bulge.
template <unsigned dim>
double distance_to_box(const Patch<dim> &patch, const Coordinates<dim> &point)
{
  double sum = 0;
  for (unsigned i = 0; i < dim; ++i) {
    double low = patch.node[0][i], high = low;
    for (const auto &n : patch.node) {
      low = std::min(low, n[i]);
      high = std::max(high, n[i]);
    }
    const double room = 0.15 * (high - low);
    const double out = std::max({low - room - point[i], point[i] - high - room, 0.});
    sum += out * out;
  }
  return std::sqrt(sum);
}

// Patch number and place in it of the nearest point; the distance is huge without patches.
template <unsigned dim>
std::pair<unsigned, Nearest<dim>> nearest_of(const std::vector<Patch<dim>> &patches,
                                             const Coordinates<dim> &point)
{
  std::vector<std::pair<double, unsigned>> order;
  for (unsigned p = 0; p < patches.size(); ++p)
    order.emplace_back(distance_to_box<dim>(patches[p], point), p);
  std::sort(order.begin(), order.end());
  std::pair<unsigned, Nearest<dim>> best{0, {{}, 1e300}};
  for (const auto &[bound, p] : order) {
    if (bound >= best.second.distance || best.second.distance < 1e-12)
      break;
    const Nearest<dim> found = nearest_in<dim>(patches[p], point);
    if (found.distance < best.second.distance)
      best = {p, found};
  }
  return best;
}

void check_reach(double distance, const std::string &point, const char *what)
{
  if (distance <= sampling_reach)
    return;
  std::ostringstream out;
  out << "The point " << point << " is not on " << what;
  if (distance < 1e200)
    out << ": it is " << 1e3 * distance << " mm away";
  throw std::runtime_error(out.str());
}

std::string in_mm(double x, double y)
{
  std::ostringstream out;
  out << "x = " << 1e3 * x << " mm, y = " << 1e3 * y << " mm";
  return out.str();
}
} // namespace

double Sample::value(const std::vector<double> &nodal) const
{
  double sum = 0;
  for (unsigned a = 0; a < node.size(); ++a)
    sum += weight[a] * nodal[node[a]];
  return sum;
}

double Sample::component(const std::vector<double> &vector, unsigned i) const
{
  double sum = 0;
  for (unsigned a = 0; a < node.size(); ++a)
    sum += weight[a] * vector[3 * node[a] + i];
  return sum;
}

Sample find_point(const Space &space, const Vec3 &point)
{
  std::vector<Patch<3>> patches(space.n_cells);
  for (unsigned c = 0; c < space.n_cells; ++c)
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      patches[c].node[a] = space.position[space.cell_node[c][a]];
  const auto [cell, place] = nearest_of<3>(patches, point);
  std::ostringstream z;
  z << ", z = " << 1e3 * point[2] << " mm";
  check_reach(place.distance, in_mm(point[0], point[1]) + z.str(), "the neck");
  const auto &nodes = space.cell_node[cell];
  return {{nodes.begin(), nodes.end()}, weights<3>(place.unit)};
}

Sample find_on_face(const Space &space, unsigned face_id, double x, double y)
{
  const auto found = space.boundary.find(face_id);
  if (found == space.boundary.end())
    throw std::runtime_error("The mesh has no face with the number " + std::to_string(face_id));
  std::vector<Patch<2>> patches;
  for (const BoundaryFace &face : found->second) {
    Patch<2> patch;
    for (unsigned a = 0; a < nodes_per_face; ++a)
      patch.node[a] = {space.position[face.node[a]][0], space.position[face.node[a]][1]};
    patches.push_back(patch);
  }
  const auto [number, place] = nearest_of<2>(patches, {x, y});
  check_reach(place.distance, in_mm(x, y), "the face");
  const auto &nodes = found->second[number].node;
  return {{nodes.begin(), nodes.end()}, weights<2>(place.unit)};
}
} // namespace overbend::solver
