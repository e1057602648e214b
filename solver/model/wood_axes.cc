// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/wood_axes.h"

namespace overbend::solver
{
StrainMap strain_map(const std::array<Vec3, 3> &grain)
{
  // Pairs of axes of the six components, in wood axes and in model axes alike.
  const unsigned pair[6][2] = {{0, 0}, {1, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}};
  StrainMap map{};
  for (unsigned i = 0; i < 6; ++i) {
    const Vec3 &a = grain[pair[i][0]], &b = grain[pair[i][1]];
    const double shear = i < 3 ? 1 : 2;
    for (unsigned j = 0; j < 6; ++j) {
      const unsigned k = pair[j][0], l = pair[j][1];
      map[6 * i + j] = shear * (j < 3 ? a[k] * b[k] : (a[k] * b[l] + a[l] * b[k]) / 2);
    }
  }
  return map;
}

materials::Vector6 to_wood_axes(const StrainMap &map, const Voigt &strain)
{
  materials::Vector6 result{};
  for (unsigned i = 0; i < 6; ++i)
    for (unsigned j = 0; j < 6; ++j)
      result[i] += map[6 * i + j] * strain[j];
  return result;
}

Voigt to_model_axes(const StrainMap &map, const materials::Vector6 &stress)
{
  Voigt result{};
  for (unsigned i = 0; i < 6; ++i)
    for (unsigned j = 0; j < 6; ++j)
      result[j] += map[6 * i + j] * stress[i];
  return result;
}

materials::Compliance inverse(const materials::Compliance &compliance)
{
  const auto &[a, b, c, d, e, f] = compliance.normal; // 11 22 33 12 13 23
  const double A = b * c - f * f, B = e * f - d * c, C = d * f - e * b;
  const double det = a * A + d * B + e * C;
  materials::Compliance result;
  result.normal = {A / det, (a * c - e * e) / det, (a * b - d * d) / det, B / det,
                   C / det, (d * e - a * f) / det};
  for (unsigned i = 0; i < 3; ++i)
    result.shear[i] = 1 / compliance.shear[i];
  return result;
}

Stiffness to_model_axes(const StrainMap &map, const materials::Compliance &stiffness)
{
  double product[6][6]; // C M
  for (unsigned j = 0; j < 6; ++j) {
    const auto &n = stiffness.normal;
    const double m0 = map[j], m1 = map[6 + j], m2 = map[12 + j];
    product[0][j] = n[0] * m0 + n[3] * m1 + n[4] * m2;
    product[1][j] = n[3] * m0 + n[1] * m1 + n[5] * m2;
    product[2][j] = n[4] * m0 + n[5] * m1 + n[2] * m2;
    for (unsigned i = 3; i < 6; ++i)
      product[i][j] = stiffness.shear[i - 3] * map[6 * i + j];
  }
  Stiffness result{};
  unsigned k = 0;
  for (unsigned i = 0; i < 6; ++i)
    for (unsigned j = i; j < 6; ++j, ++k)
      for (unsigned a = 0; a < 6; ++a)
        result[k] += map[6 * a + i] * product[a][j];
  return result;
}
} // namespace overbend::solver
