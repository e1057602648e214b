// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/bench.h"

#include <array>
#include <cmath>

// The rod in its channel as a spring of the bench.
namespace overbend::solver
{
void Bench::make_rod(const cases::Case &the_case, const materials::Tables &tables)
{
  const cases::Rod &rod = the_case.neck.rod;
  if (rod.kind != cases::RodKind::single_action && rod.kind != cases::RodKind::two_way)
    return;
  const auto &steel = tables.bar("steel");
  const double join = cases::fret_position(the_case.neck.scale_length, the_case.neck.join_fret);
  const double depth = rod.channel_depth - rod.diameter / 2;
  // The ends bear on the wood round the channel.
  std::array<std::vector<unsigned>, 2> end;
  std::array<double, 2> x{0.01, join - 0.02};
  for (unsigned k = 0; k < 2; ++k)
    for (unsigned n = 0; n < model.space.n_nodes; ++n) {
      const Vec3 &p = model.space.position[n];
      if (std::abs(p[0] - x[k]) < 0.015 && std::abs(p[1]) < rod.channel_width + 2e-3 &&
          p[2] < 1e-6 && p[2] > -rod.channel_depth - 3e-3)
        end[k].push_back(n);
    }
  for (unsigned k = 0; k < 2; ++k)
    rod_nodes.insert(rod_nodes.end(), end[k].begin(), end[k].end());
  const double section = 3.14159265358979 / 4 * rod.diameter * rod.diameter;
  const double length = x[1] - x[0];
  Spring s;
  s.name = "rod";
  s.role = SpringRole::rod;
  s.in_factor = false;
  if (rod.kind == cases::RodKind::single_action) {
    s.row = combine(spread_force(model.space, end[1], {x[1], 0, -depth}, {1, 0, 0}),
                    spread_force(model.space, end[0], {x[0], 0, -depth}, {1, 0, 0}), -1);
    s.stiffness = steel.modulus * section / length;
    s.one_sided = true;
    rod_force = rod.force.value_or(0);
    rod_growth = steel.expansion * length;
  } else {
    // A pair of members a diameter and a half apart: a couple at its ends, nothing along. Rotation
    // about y lowers points of larger x, so the couple that pulls the ends back is end minus start.
    const double arm = 1.5 * rod.diameter;
    s.row = combine(spread_moment(model.space, end[1], {0, 1, 0}),
                    spread_moment(model.space, end[0], {0, 1, 0}), -1);
    for (auto &entry : s.row)
      entry.second = -entry.second;
    s.stiffness = steel.modulus * section * arm * arm / 2 / length;
    const double sign = rod.bows == cases::RodBows::forward ? -1 : 1;
    rod_force = sign * rod.force.value_or(0) * arm;
    rod_arm = arm;
  }
  rod_spring = s;
}
} // namespace overbend::solver
