// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/springs.h"

#include <deal.II/base/symmetric_tensor.h>
#include <deal.II/base/tensor.h>

#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using Tensor1 = dealii::Tensor<1, 3>;
using Tensor2 = dealii::Tensor<2, 3>;

Tensor1 tensor(const Vec3 &v)
{
  Tensor1 t;
  for (unsigned i = 0; i < 3; ++i)
    t[i] = v[i];
  return t;
}

// Centre and inverse inertia (about the centre, unit weights) of the nodes.
struct Patch
{
  Tensor1 centre;
  Tensor2 inverse_inertia;
};

// Smallest determinant of the inertia against its trace cubed that still counts as a patch: nodes
// in a band of a twentieth of its length.
constexpr double least_spread = 1e-3;

// Centre of the nodes and their inertia about it, unit weights.
Tensor2 inertia_of(const Space &space, const std::vector<unsigned> &nodes, Tensor1 &centre)
{
  for (const unsigned n : nodes)
    centre += tensor(space.position[n]) / double(nodes.size());
  Tensor2 inertia;
  for (const unsigned n : nodes) {
    const Tensor1 r = tensor(space.position[n]) - centre;
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        inertia[i][j] += (i == j ? r * r : 0.) - r[i] * r[j];
  }
  return inertia;
}

Patch make_patch(const Space &space, const std::vector<unsigned> &nodes)
{
  if (!can_carry_moment(space, nodes))
    throw std::runtime_error(
        "a moment cannot act on fewer than three nodes or on nodes of one line");
  Patch patch;
  patch.inverse_inertia = dealii::invert(inertia_of(space, nodes, patch.centre));
  return patch;
}

Row spread(const Space &space, const std::vector<unsigned> &nodes, const Patch &patch,
           const Tensor1 &force, const Tensor1 &moment)
{
  const Tensor1 b = patch.inverse_inertia * moment;
  Row row;
  for (const unsigned n : nodes) {
    const Tensor1 r = tensor(space.position[n]) - patch.centre;
    const Tensor1 f = force / double(nodes.size()) + dealii::cross_product_3d(b, r);
    for (unsigned i = 0; i < 3; ++i)
      if (f[i] != 0)
        row.emplace_back(3 * n + i, f[i]);
  }
  return row;
}
} // namespace

double evaluate(const Row &row, const std::vector<double> &unknowns)
{
  double sum = 0;
  for (const auto &[index, coefficient] : row)
    sum += coefficient * unknowns[index];
  return sum;
}

void add_times(const Row &row, double factor, std::vector<double> &unknowns)
{
  for (const auto &[index, coefficient] : row)
    unknowns[index] += factor * coefficient;
}

double elongation(const Spring &spring, const std::vector<double> &unknowns)
{
  return evaluate(spring.row, unknowns) + spring.offset;
}

double force(const Spring &spring, const std::vector<double> &unknowns)
{
  const double e = elongation(spring, unknowns);
  return spring.one_sided && e <= 0 ? 0. : spring.stiffness * e;
}

bool can_carry_moment(const Space &space, const std::vector<unsigned> &nodes)
{
  if (nodes.size() < 3)
    return false;
  Tensor1 centre;
  const Tensor2 inertia = inertia_of(space, nodes, centre);
  return dealii::determinant(inertia) > least_spread * std::pow(dealii::trace(inertia), 3);
}

Row spread_force(const Space &space, const std::vector<unsigned> &nodes, const Vec3 &point,
                 const Vec3 &direction)
{
  const Patch patch = make_patch(space, nodes);
  const Tensor1 force = tensor(direction);
  return spread(space, nodes, patch, force,
                dealii::cross_product_3d(tensor(point) - patch.centre, force));
}

Row spread_moment(const Space &space, const std::vector<unsigned> &nodes, const Vec3 &axis)
{
  const Patch patch = make_patch(space, nodes);
  return spread(space, nodes, patch, Tensor1(), tensor(axis));
}

Row combine(const Row &a, const Row &b, double factor)
{
  Row row = a;
  for (const auto &[index, coefficient] : b)
    row.emplace_back(index, factor * coefficient);
  return row;
}
} // namespace overbend::solver
