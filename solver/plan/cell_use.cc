// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/cell_use.h"

namespace overbend::solver
{
namespace
{
// Strips of one wood and grain are one wood: the line between them cuts nothing.
bool is_same_wood(const Model &model, unsigned cell, std::size_t p, std::size_t q)
{
  const unsigned a = model.wood_at(cell, p), b = model.wood_at(cell, q);
  if (a == b || !model.strips)
    return a == b;
  const PieceModel &one = model.wood(a), &other = model.wood(b);
  return one.law->wood().name == other.law->wood().name &&
         one.swelling_along == other.swelling_along &&
         model.strips->frame_at_point[p] == model.strips->frame_at_point[q];
}

// Over the points of the wood at one of them.
materials::Vector6 mean_stress(const Model &model, const MechanicsState &state, unsigned cell,
                               std::size_t of)
{
  materials::Vector6 mean{};
  double volume = 0;
  for (std::size_t p = std::size_t(cell) * points_per_cell; p < (cell + 1) * points_per_cell; ++p) {
    if (!is_same_wood(model, cell, p, of))
      continue;
    volume += model.space.jxw[p];
    for (unsigned i = 0; i < 6; ++i)
      mean[i] += model.space.jxw[p] * state.wood[p].stress[i];
  }
  for (double &s : mean)
    s /= volume;
  return mean;
}
} // namespace

materials::Use use_in_cell(const Model &model, const MechanicsState &state, unsigned cell,
                           double temperature, std::optional<double> moisture)
{
  materials::Use most;
  const std::size_t first = std::size_t(cell) * points_per_cell;
  for (std::size_t p = first; p < first + points_per_cell; ++p) {
    bool seen = false;
    for (std::size_t before = first; before < p && !seen; ++before)
      seen = is_same_wood(model, cell, before, p);
    if (seen)
      continue;
    const PieceModel &piece = model.wood(model.wood_at(cell, p));
    const auto used =
        materials::use_of_strength(mean_stress(model, state, cell, p), piece.law->wood(),
                                   temperature, moisture.value_or(piece.moisture));
    if (p == first || used.share > most.share)
      most = used;
    if (!model.strips)
      break;
  }
  return most;
}
} // namespace overbend::solver
