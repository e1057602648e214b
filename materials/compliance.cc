// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/compliance.h"

#include <algorithm>
#include <cmath>

namespace overbend::materials
{
namespace
{
// Places of the normal block of Compliance: LL, RR, TT, LR, LT, RT.
constexpr unsigned first[6] = {0, 1, 2, 0, 0, 1};
constexpr unsigned second[6] = {0, 1, 2, 1, 2, 2};
} // namespace

Compliance congruent(const Compliance &s, const Vector6 &root)
{
  Compliance m;
  for (unsigned k = 0; k < 6; ++k)
    m.normal[k] = root[first[k]] * root[second[k]] * s.normal[k];
  for (unsigned k = 0; k < 3; ++k)
    m.shear[k] = root[3 + k] * root[3 + k] * s.shear[k];
  return m;
}

Compliance add(const Compliance &a, double factor, const Compliance &b)
{
  Compliance sum;
  for (unsigned k = 0; k < 6; ++k)
    sum.normal[k] = a.normal[k] + factor * b.normal[k];
  for (unsigned k = 0; k < 3; ++k)
    sum.shear[k] = a.shear[k] + factor * b.shear[k];
  return sum;
}

Vector6 Compliance::operator*(const Vector6 &s) const
{
  return {normal[0] * s[0] + normal[3] * s[1] + normal[4] * s[2],
          normal[3] * s[0] + normal[1] * s[1] + normal[5] * s[2],
          normal[4] * s[0] + normal[5] * s[1] + normal[2] * s[2],
          shear[0] * s[3],
          shear[1] * s[4],
          shear[2] * s[5]};
}

double Compliance::least_relative_minor() const
{
  for (const double diagonal : {normal[0], normal[1], normal[2], shear[0], shear[1], shear[2]})
    if (!(diagonal > 0))
      return -1;
  const double lr = normal[3] / std::sqrt(normal[0] * normal[1]);
  const double lt = normal[4] / std::sqrt(normal[0] * normal[2]);
  const double rt = normal[5] / std::sqrt(normal[1] * normal[2]);
  const double two = 1 - lr * lr;
  const double three = 1 + 2 * lr * lt * rt - lr * lr - lt * lt - rt * rt;
  return std::min({1., two, three});
}
} // namespace overbend::materials
