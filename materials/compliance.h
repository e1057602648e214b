// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

namespace overbend::materials
{
// Strain or stress in wood axes: LL, RR, TT, RT, LT, LR; shear strains are engineering ones.
using Vector6 = std::array<double, 6>;

// A symmetric compliance that does not mix normal and shear parts, as in wood axes.
struct Compliance
{
  // LL, RR, TT, LR(=12), LT(=13), RT(=23) of the normal block, 1/Pa
  std::array<double, 6> normal{};
  // RT, LT, LR shear, 1/Pa
  std::array<double, 3> shear{};

  Vector6 operator*(const Vector6 &stress) const;

  // Smallest of the leading minors of the normal block and of the shears, each divided by the
  // product of the diagonal terms it holds: positive if and only if the compliance is positive
  // definite, 1 at most for an uncoupled one.
  double least_relative_minor() const;
};

// m_ab = root_a root_b s_ab: a congruence, so m stays symmetric and positive definite with s (only
// semidefinite where a root is zero). Roots in the order of Vector6.
Compliance congruent(const Compliance &s, const Vector6 &root);

// a + factor b
Compliance add(const Compliance &a, double factor, const Compliance &b);
} // namespace overbend::materials
