// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/interfaces.h"

#include <vector>

namespace overbend::solver
{
// Displacement of the upper against the lower side of a glue point in a direction, m.
inline double jump_along(const std::vector<double> &u, const GluePoint &p, const Vec3 &direction)
{
  double slip = 0;
  for (unsigned i = 0; i < 3; ++i)
    slip += direction[i] * (u[3 * p.upper + i] - (p.lower < 0 ? 0. : u[3 * p.lower + i]));
  return slip;
}

// Adds the nodal forces of a traction (Pa) in a direction, as it resists the jump.
inline void add_traction(const GluePoint &p, const Vec3 &direction, double traction,
                         std::vector<double> &force)
{
  for (unsigned i = 0; i < 3; ++i) {
    force[3 * p.upper + i] += p.weight * traction * direction[i];
    if (p.lower >= 0)
      force[3 * p.lower + i] -= p.weight * traction * direction[i];
  }
}
} // namespace overbend::solver
