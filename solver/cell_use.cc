// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cell_use.h"

namespace overbend::solver
{
namespace
{
// Over the points of one wood.
materials::Vector6 mean_stress(const Model &model, const MechanicsState &state, unsigned cell,
                               unsigned wood)
{
  materials::Vector6 mean{};
  double volume = 0;
  for (std::size_t p = std::size_t(cell) * points_per_cell; p < (cell + 1) * points_per_cell; ++p) {
    if (model.wood_at(cell, p) != wood)
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
    const unsigned wood = model.wood_at(cell, p);
    bool seen = false;
    for (std::size_t before = first; before < p && !seen; ++before)
      seen = model.wood_at(cell, before) == wood;
    if (seen)
      continue;
    const PieceModel &piece = model.wood(wood);
    const auto used =
        materials::use_of_strength(mean_stress(model, state, cell, wood), piece.law->wood(),
                                   temperature, moisture.value_or(piece.moisture));
    if (p == first || used.share > most.share)
      most = used;
    if (!model.strips)
      break;
  }
  return most;
}
} // namespace overbend::solver
