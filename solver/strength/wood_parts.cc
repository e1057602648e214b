// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strength/wood_parts.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
constexpr double same_way = 0.99; // cosine between axes that turn a little

bool is_same_blank(const PieceModel &a, const PieceModel &b)
{
  return a.law->wood().name == b.law->wood().name && a.swelling_along == b.swelling_along;
}
} // namespace

bool is_same_wood(const Model &model, unsigned cell, std::size_t p, std::size_t q)
{
  const unsigned a = model.wood_at(cell, p), b = model.wood_at(cell, q);
  return a == b || (model.strips && is_same_blank(model.wood(a), model.wood(b)) &&
                    model.strips->frame_at_point[p] == model.strips->frame_at_point[q]);
}

bool is_same_wood(const Model &model, const WoodPart &a, const WoodPart &b)
{
  if (!is_same_blank(model.wood(model.wood_at(a.cell, a.point)),
                     model.wood(model.wood_at(b.cell, b.point))))
    return false;
  const auto &one = model.grain_at(a.cell, a.point), &other = model.grain_at(b.cell, b.point);
  for (unsigned k = 0; k < 3; ++k)
    if (one[k][0] * other[k][0] + one[k][1] * other[k][1] + one[k][2] * other[k][2] < same_way)
      return false;
  return true;
}

std::vector<WoodPart> parts_of(const Model &model, unsigned cell)
{
  const std::size_t first = std::size_t(cell) * points_per_cell;
  std::vector<WoodPart> parts{{cell, first, true}};
  if (model.strips)
    for (std::size_t p = first + 1; p < first + points_per_cell; ++p)
      if (std::none_of(parts.begin(), parts.end(), [&](const WoodPart &part) {
            return is_same_wood(model, cell, part.point, p);
          }))
        parts.push_back({cell, p, true});
  for (WoodPart &part : parts)
    part.whole = parts.size() == 1;
  return parts;
}
} // namespace overbend::solver
