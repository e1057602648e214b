// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/strips.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace overbend::solver
{
namespace
{
constexpr unsigned middle = 13; // node of a cell, and point

// Stretches of the unit interval that its three Gauss points stand for.
constexpr std::array<double, 3> weight = {5. / 18, 8. / 18, 5. / 18};
constexpr std::array<double, 3> stretch_middle = {5. / 36, 0.5, 31. / 36};
const std::array<double, 3> gauss = {0.5 - std::sqrt(0.15), 0.5, 0.5 + std::sqrt(0.15)};

std::vector<double> y_at_points(const Space &space)
{
  std::vector<double> y;
  y.reserve(space.n_nodes);
  for (const Vec3 &place : space.position)
    y.push_back(place[1]);
  return at_points(space, y);
}

// The direction of the cell that runs most nearly along axis `axis` of the neck.
unsigned direction_along(const Space &space, unsigned cell, unsigned axis)
{
  const auto &inverse = space.inverse_jacobian[std::size_t(cell) * points_per_cell + middle];
  unsigned most = 0;
  for (unsigned d = 1; d < 3; ++d)
    if (std::abs(inverse[3 * d + axis]) > std::abs(inverse[3 * most + axis]))
      most = d;
  return most;
}

class Layer
{
public:
  Layer(const Space &space_, const mesh::NeckGrain &grain_)
      : space(space_), grain(grain_), y(y_at_points(space_))
  {}

  // Strips of the points of a cell.
  std::array<unsigned, points_per_cell> strips(unsigned cell) const
  {
    constexpr std::array<unsigned, 3> stride = {1, 3, 9};
    std::array<unsigned, points_per_cell> strip{};
    const unsigned across = direction_along(space, cell, 1);
    unsigned along = direction_along(space, cell, 0);
    if (along == across)
      along = (across + 1) % 3;
    const unsigned up = 3 - along - across;
    for (unsigned row = 0; row < 3; ++row)
      for (unsigned layer = 0; layer < 3; ++layer) {
        const unsigned first = row * stride[across] + layer * stride[up];
        const auto [which, shares] = shares_of(cell, first + stride[along], row, across);
        const auto taken = share_out(shares);
        for (unsigned k = 0; k < 3; ++k)
          strip[first + k * stride[along]] = which[taken[k]];
      }
    return strip;
  }

private:
  struct Shares
  {
    std::vector<unsigned> strip;
    std::vector<double> share;
  };

  // What the strips have of the stretch of y that a point stands for, from the centre line
  // outwards.
  Shares shares_of(unsigned cell, unsigned point, unsigned row, unsigned across) const
  {
    const std::size_t p = std::size_t(cell) * points_per_cell + point;
    const double width = 1 / space.inverse_jacobian[p][3 * across + 1]; // m, of the cell
    const double centre = y[p] + (stretch_middle[row] - gauss[row]) * width,
                 half = weight[row] * std::abs(width) / 2;
    const auto &lines = grain.strip_lines();
    Shares result;
    for (unsigned s = 0; s <= lines.size(); ++s) {
      constexpr double far = std::numeric_limits<double>::infinity();
      const double from = std::max(centre - half, s == 0 ? -far : lines[s - 1]),
                   to = std::min(centre + half, s == lines.size() ? far : lines[s]);
      if (!(to - from > negligible * half))
        continue;
      result.strip.push_back(s);
      result.share.push_back((to - from) / (2 * half));
    }
    if (centre < 0) {
      std::reverse(result.strip.begin(), result.strip.end());
      std::reverse(result.share.begin(), result.share.end());
    }
    return result;
  }

  static constexpr double negligible = 1e-9;
  const Space &space;
  const mesh::NeckGrain &grain;
  std::vector<double> y;
};
} // namespace

std::array<Vec3, 3> columns(const mesh::GrainFrame &frame)
{
  std::array<Vec3, 3> grain;
  for (unsigned a = 0; a < 3; ++a)
    for (unsigned k = 0; k < 3; ++k)
      grain[a][k] = frame[k][a];
  return grain;
}

std::array<unsigned, 3> share_out(const std::vector<double> &shares)
{
  const auto n = static_cast<unsigned>(shares.size());
  std::array<unsigned, 3> best{};
  double least = std::numeric_limits<double>::infinity();
  for (unsigned a = 0; a < n; ++a)
    for (unsigned b = 0; b < n; ++b)
      for (unsigned c = 0; c < n; ++c) {
        std::vector<double> missing = shares;
        missing[a] -= weight[0];
        missing[b] -= weight[1];
        missing[c] -= weight[2];
        double sum = 0;
        for (const double m : missing)
          sum += m * m;
        constexpr double round_off = 1e-9;
        if (sum < least - round_off) {
          least = sum;
          best = {a, b, c};
        }
      }
  return best;
}

StripModel lay_strips(const Space &space, const mesh::NeckGrain &grain,
                      std::vector<PieceModel> wood)
{
  StripModel strips;
  strips.wood = std::move(wood);
  std::map<std::array<Vec3, 3>, std::uint32_t> known;
  const auto frame_index = [&](mesh::Piece piece, double x, std::optional<unsigned> strip) {
    const auto axes = columns(grain.at(piece, x, strip));
    const auto [entry, is_new] =
        known.emplace(axes, static_cast<std::uint32_t>(strips.frame.size()));
    if (is_new)
      strips.frame.push_back(axes);
    return entry->second;
  };
  const Layer layer(space, grain);
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const auto piece = mesh::Piece(space.piece[c]);
    const Vec3 &centre = space.position[space.cell_node[c][middle]];
    const auto at_middle = grain.strip(piece, centre[1]);
    strips.wood_at_middle.push_back(
        static_cast<std::uint8_t>(at_middle ? first_strip + *at_middle : space.piece[c]));
    if (!at_middle) {
      const auto frame = frame_index(piece, centre[0], {});
      strips.wood_at_point.insert(strips.wood_at_point.end(), points_per_cell,
                                  static_cast<std::uint8_t>(space.piece[c]));
      strips.frame_at_point.insert(strips.frame_at_point.end(), points_per_cell, frame);
      continue;
    }
    std::map<unsigned, std::uint32_t> frame_of;
    for (const unsigned strip : layer.strips(c)) {
      const auto known_frame = frame_of.find(strip);
      const auto frame = known_frame != frame_of.end() ? known_frame->second
                                                       : frame_index(piece, centre[0], strip);
      frame_of[strip] = frame;
      strips.wood_at_point.push_back(static_cast<std::uint8_t>(first_strip + strip));
      strips.frame_at_point.push_back(frame);
    }
  }
  return strips;
}
} // namespace overbend::solver
