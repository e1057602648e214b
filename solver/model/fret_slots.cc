// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/fret_slots.h"

#include "cases/case/case.h"
#include "mesh/names.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double usual_depth = 2.5e-3, usual_share = 0.42; // trade: 2 to 3 mm, 35 to 50 % [E]
constexpr double pi = 3.14159265358979323846;
constexpr double not_shallow = 1.5; // fret_slots.h [C]
// Of the height of a cell, what a quadrature point stands for: its three weights are 5/18, 8/18,
// 5/18.
constexpr double height_of_a_point = 0.4;

// Distance between the frets about x, m; 0 before the first and behind the last.
double fret_spacing(const cases::NeckShape &neck, double x)
{
  const double spacing =
      (neck.scale_length - x) * (std::exp2(1. / 24) - std::exp2(-1. / 24)); // equal temper
  const double first = cases::fret_position(neck.scale_length, 1),
               last = cases::fret_position(neck.scale_length, neck.frets);
  return x > first - spacing / 2 && x < last + spacing / 2 ? spacing : 0;
}

// Height of the board's top over the glue plane, m.
double top_at(const cases::NeckShape &neck, double y)
{
  if (!std::isfinite(neck.board_radius))
    return neck.board_thickness;
  const double r = neck.board_radius;
  return neck.board_thickness - (r - std::sqrt(r * r - y * y));
}

// Share of the height that a point stands for which is cut.
double cut_share(double below_top, double cell_height, double depth)
{
  const double half = height_of_a_point * cell_height / 2;
  const double from = std::max(0., below_top - half), to = below_top + half;
  return std::clamp((depth - from) / (to - from), 0., 1.);
}

std::vector<double> coordinate(const Space &space, unsigned direction)
{
  std::vector<double> nodal;
  for (const Vec3 &place : space.position)
    nodal.push_back(place[direction]);
  return at_points(space, nodal);
}

double height_of(const Space &space, unsigned cell)
{
  double low = space.position[space.cell_node[cell][0]][2], high = low;
  for (const unsigned node : space.cell_node[cell]) {
    low = std::min(low, space.position[node][2]);
    high = std::max(high, space.position[node][2]);
  }
  return high - low;
}
} // namespace

double slot_depth(const cases::NeckShape &neck)
{
  return neck.slot_depth.value_or(std::min(usual_depth, usual_share * neck.board_thickness));
}

double slot_reach(const materials::WoodLaw &law, const std::array<Vec3, 3> &grain, double moisture)
{
  const materials::Compliance s = law.elastic(materials::reference_temperature, moisture);
  // The depth is z: R of flat-sawn wood, T of quarter-sawn.
  const double r = grain[1][2] * grain[1][2], t = grain[2][2] * grain[2][2];
  const double along = s.normal[0], deep = (r * s.normal[1] + t * s.normal[2]) / (r + t),
               both = (r * s.normal[3] + t * s.normal[4]) / (r + t),
               shear = (r * s.shear[2] + t * s.shear[1]) / (r + t);
  const double g = std::sqrt(along * deep / 2) *
                   std::sqrt(std::sqrt(along / deep) + (2 * both + shear) / (2 * deep)) / along;
  return not_shallow * 1.12 * 1.12 * pi * g;
}

std::vector<double> slots_by_point(const Model &model, const cases::NeckShape &neck)
{
  const double depth = slot_depth(neck);
  if (!(depth > 0) || !(neck.slot_give > 0))
    return {};
  const Space &space = model.space;
  const auto x = coordinate(space, 0), y = coordinate(space, 1), z = coordinate(space, 2);
  std::vector<double> added(space.jxw.size(), 0.);
  for (unsigned c = 0; c < space.n_cells; ++c) {
    if (space.piece[c] != unsigned(mesh::Piece::board))
      continue;
    const PieceModel &piece = model.wood(model.wood_at_middle(c));
    const double height = height_of(space, c),
                 reach = slot_reach(*piece.law, model.grain(c), piece.moisture) * depth *
                         neck.slot_give;
    for (std::size_t p = c * points_per_cell; p < (c + 1) * points_per_cell; ++p) {
      const double spacing = fret_spacing(neck, x[p]);
      if (!(spacing > 0))
        continue;
      const double lost =
          cut_share(top_at(neck, y[p]) - z[p], height, depth) * reach / (spacing + reach);
      added[p] = 1 / (1 - lost) - 1;
    }
  }
  return added;
}
} // namespace overbend::solver
