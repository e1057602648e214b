// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strips.h"

#include <map>

namespace overbend::solver
{
namespace
{
constexpr unsigned middle = 13; // node of a cell

std::vector<double> y_at_points(const Space &space)
{
  std::vector<double> y;
  y.reserve(space.n_nodes);
  for (const Vec3 &place : space.position)
    y.push_back(place[1]);
  return at_points(space, y);
}
} // namespace

std::array<Vec3, 3> columns(const mesh::GrainFrame &frame)
{
  std::array<Vec3, 3> grain;
  for (unsigned a = 0; a < 3; ++a)
    for (unsigned k = 0; k < 3; ++k)
      grain[a][k] = frame[k][a];
  return grain;
}

StripModel lay_strips(const Space &space, const StripPlaces &places, std::vector<PieceModel> wood)
{
  StripModel strips;
  strips.wood = std::move(wood);
  std::map<std::array<Vec3, 3>, std::uint32_t> known;
  const std::vector<double> y = y_at_points(space);
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const auto piece = mesh::Piece(space.piece[c]);
    const Vec3 &centre = space.position[space.cell_node[c][middle]];
    const auto wood_at = [&](double across) {
      const auto strip = places.strip(piece, across);
      return static_cast<std::uint8_t>(strip ? first_strip + *strip : space.piece[c]);
    };
    std::map<std::uint8_t, std::uint32_t> frame_of; // by wood, within the cell
    for (std::size_t p = std::size_t(c) * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
      const std::uint8_t here = wood_at(y[p]);
      auto frame = frame_of.find(here);
      if (frame == frame_of.end()) {
        const auto axes = columns(places.grain(piece, centre[0], y[p]));
        const auto next = static_cast<std::uint32_t>(strips.frame.size());
        const auto [entry, is_new] = known.emplace(axes, next);
        if (is_new)
          strips.frame.push_back(axes);
        frame = frame_of.emplace(here, entry->second).first;
      }
      strips.wood_at_point.push_back(here);
      strips.frame_at_point.push_back(frame->second);
    }
    strips.wood_at_middle.push_back(wood_at(centre[1]));
  }
  return strips;
}

StripModel lay_strips(const Space &space, const mesh::NeckGrain &grain,
                      std::vector<PieceModel> wood)
{
  return lay_strips(space,
                    {[&](mesh::Piece piece, double y) { return grain.strip(piece, y); },
                     [&](mesh::Piece piece, double x, double y) { return grain.at(piece, x, y); }},
                    std::move(wood));
}
} // namespace overbend::solver
