// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <string>
#include <utility>
#include <vector>

// Everything on the bench that pulls or bears: cords, cradle pad, stop block, nut, rod, body pads.
namespace overbend::solver
{
// A linear form of the unknowns: sum of coefficient * unknown.
using Row = std::vector<std::pair<unsigned, double>>;

double evaluate(const Row &row, const std::vector<double> &unknowns);
void add_times(const Row &row, double factor, std::vector<double> &unknowns);

// A spring of elongation  row . u + offset  (m or rad) and force  stiffness * elongation. A
// one-sided spring pulls only when its elongation is positive: a slack cord or an open contact has
// no force.
enum class SpringRole { other, pull, cradle, block, nut, rod };

struct Spring
{
  std::string name; // in words, for people
  SpringRole role = SpringRole::other;
  unsigned pull = 0; // of role pull: which of the device's
  Row row;
  double stiffness = 0; // N/m, or N m for an angle
  double offset = 0;
  bool one_sided = false;
  bool in_factor = true; // long rows (rod, strings) stay out of the factor; the iteration has them
};

double elongation(const Spring &spring, const std::vector<double> &unknowns);
double force(const Spring &spring, const std::vector<double> &unknowns);

// Whether a patch of nodes can carry a moment about every axis: at least three nodes, not on a
// line.
bool can_carry_moment(const Space &space, const std::vector<unsigned> &nodes);

// Spreads a unit force along `direction` at `point` over the nodes so that force and moment about
// every axis are kept: f_i = w_i (a + b x r_i), weights w_i. Throws std::runtime_error when the
// nodes cannot carry the moment (fewer than three, or on one line).
Row spread_force(const Space &space, const std::vector<unsigned> &nodes, const Vec3 &point,
                 const Vec3 &direction);
// The same for a unit moment about `axis`: the row is the mean rotation of the nodes about it.
Row spread_moment(const Space &space, const std::vector<unsigned> &nodes, const Vec3 &axis);

// Sum of two rows, the second one times a factor.
Row combine(const Row &a, const Row &b, double factor);
} // namespace overbend::solver
