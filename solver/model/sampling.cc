// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/sampling.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/base/tensor_product_polynomials.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace overbend::solver
{
namespace
{
using dealii::Point;
using dealii::Tensor;

// A quadratic patch of a line's square or cube: 3^dim nodes in lexicographic order.
template <int dim>
using Patch = std::vector<Point<dim>>;

template <int dim>
using Shapes = dealii::TensorProductPolynomials<dim>;

// Shape functions of the patch, in the order of its nodes.
template <int dim>
const Shapes<dim> &shapes()
{
  static const Shapes<dim> made(dealii::Polynomials::generate_complete_Lagrange_basis(
      dealii::QGaussLobatto<1>(3).get_points()));
  return made;
}

template <int dim>
std::vector<double> weights(const Point<dim> &unit)
{
  std::vector<double> result;
  for (unsigned a = 0; a < shapes<dim>().n(); ++a)
    result.push_back(shapes<dim>().compute_value(a, unit));
  return result;
}

template <int dim>
struct Mapped
{
  Point<dim> place;
  Tensor<2, dim> slope; // row: unit direction
};

template <int dim>
Mapped<dim> map(const Patch<dim> &patch, const Point<dim> &unit)
{
  Mapped<dim> result;
  for (unsigned a = 0; a < patch.size(); ++a) {
    result.place += shapes<dim>().compute_value(a, unit) * patch[a];
    result.slope += outer_product(shapes<dim>().compute_grad(a, unit), Tensor<1, dim>(patch[a]));
  }
  return result;
}

template <int dim>
struct Nearest
{
  Point<dim> unit;
  double distance = 0;
};

// Damped Gauss-Newton step towards the point; a coordinate at its bound that wants to leave stays.
template <int dim>
Tensor<1, dim> step_towards(const Mapped<dim> &at, const Point<dim> &point, const Point<dim> &unit,
                            double damping)
{
  Tensor<1, dim> pull = at.slope * (point - at.place);
  Tensor<2, dim> matrix = at.slope * transpose(at.slope);
  const double more = damping * trace(matrix);
  for (int d = 0; d < dim; ++d) {
    matrix[d][d] += more;
    if ((unit[d] <= 0 && pull[d] < 0) || (unit[d] >= 1 && pull[d] > 0)) {
      for (int e = 0; e < dim; ++e)
        matrix[d][e] = matrix[e][d] = 0;
      matrix[d][d] = 1;
      pull[d] = 0;
    }
  }
  return invert(matrix) * pull;
}

// The nearest point of a patch within its unit bounds.
template <int dim>
Nearest<dim> nearest_in(const Patch<dim> &patch, const Point<dim> &point)
{
  Point<dim> unit;
  for (int d = 0; d < dim; ++d)
    unit[d] = 0.5;
  Mapped<dim> at = map<dim>(patch, unit);
  double best = at.place.distance_square(point), damping = 1e-12;
  for (unsigned iteration = 0; iteration < 100 && damping < 1e6; ++iteration) {
    const Tensor<1, dim> step = step_towards<dim>(at, point, unit, damping);
    Point<dim> trial = unit;
    double moved = 0;
    for (int d = 0; d < dim; ++d) {
      trial[d] = std::clamp(unit[d] + step[d], 0., 1.);
      moved = std::max(moved, std::abs(trial[d] - unit[d]));
    }
    if (moved < 1e-13)
      break;
    const Mapped<dim> there = map<dim>(patch, trial);
    const double now = there.place.distance_square(point);
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
template <int dim>
double distance_to_box(const Patch<dim> &patch, const Point<dim> &point)
{
  double sum = 0;
  for (int i = 0; i < dim; ++i) {
    double low = patch[0][i], high = low;
    for (const Point<dim> &n : patch) {
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
template <int dim>
std::pair<unsigned, Nearest<dim>> nearest_of(const std::vector<Patch<dim>> &patches,
                                             const Point<dim> &point)
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
    for (const unsigned n : space.cell_node[c]) {
      const Vec3 &x = space.position[n];
      patches[c].emplace_back(x[0], x[1], x[2]);
    }
  const auto [cell, place] = nearest_of<3>(patches, Point<3>(point[0], point[1], point[2]));
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
    for (const unsigned n : face.node)
      patch.emplace_back(space.position[n][0], space.position[n][1]);
    patches.push_back(patch);
  }
  const auto [number, place] = nearest_of<2>(patches, Point<2>(x, y));
  check_reach(place.distance, in_mm(x, y), "the face");
  const auto &nodes = found->second[number].node;
  return {{nodes.begin(), nodes.end()}, weights<2>(place.unit)};
}
} // namespace overbend::solver
