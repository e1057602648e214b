// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/peaks.h"

#include "materials/strength.h"
#include "mesh/neck_mesh.h"
#include "solver/interfaces.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace overbend::solver
{
namespace
{
// Shear of a line is judged over this length, m: peaks at a line's end are local.
constexpr double window = 10e-3;
// Around the nut: where head pull bends short grain and the rod's pocket sits, m.
constexpr double root_from = -30e-3, root_to = 10e-3;

std::string region(const Model &model, unsigned cell, const Vec3 &place)
{
  const auto piece = mesh::Piece(model.space.piece[cell]);
  if (piece != mesh::Piece::board && place[0] > root_from && place[0] < root_to)
    return "headstock root";
  return mesh::name(piece);
}

Vec3 centre(const Space &space, unsigned cell)
{
  return space.position[space.cell_node[cell][13]];
}

void raise(std::map<std::string, Peak> &peaks, const std::string &name, const Peak &peak)
{
  Peak &now = peaks[name];
  if (peak.value > now.value)
    now = peak;
}

} // namespace

LineEnds line_ends(const Model &model, const MechanicsState &state, unsigned line)
{
  struct Point
  {
    double x, force, area, slip;
  };
  std::vector<Point> points;
  for (std::size_t g = 0; g < model.glue_point.size(); ++g)
    if (model.glue_point[g].line == line) {
      const GluePoint &p = model.glue_point[g];
      points.push_back({model.space.position[p.upper][0],
                        p.weight * model.glue_line[line].law->traction(state.glue[g])[0], p.weight,
                        state.glue[g].slip[0]});
    }
  LineEnds ends;
  if (points.empty())
    return ends;
  std::sort(points.begin(), points.end(), [](const Point &a, const Point &b) { return a.x < b.x; });
  const auto mean_slip = [&](double from, double to) {
    double sum = 0, area = 0;
    for (const Point &p : points)
      if (p.x >= from - 1e-9 && p.x <= to + 1e-9) {
        sum += p.slip * p.area;
        area += p.area;
      }
    return area > 0 ? sum / area : 0;
  };
  const double first = points.front().x, last = points.back().x;
  ends.slip_nut_end = mean_slip(first, first + 1e-3);
  ends.slip_body_end = mean_slip(last - 1e-3, last);
  for (double x = first; x < last; x += window / 2) {
    double force = 0, area = 0;
    for (const Point &p : points)
      if (p.x >= x && p.x <= x + window) {
        force += p.force;
        area += p.area;
      }
    if (area > 0 && std::abs(force / area) > ends.shear) {
      ends.shear = std::abs(force / area);
      ends.shear_x = x + window / 2;
    }
  }
  return ends;
}

Peaks::Peaks(const Model &model)
{
  std::set<std::string> names;
  for (const unsigned piece : model.space.piece)
    for (const std::string &mode : materials::missing_modes(model.piece[piece].law->wood()))
      names.insert(model.piece[piece].law->wood().name + ": " + mode);
  missing.assign(names.begin(), names.end());
}

void Peaks::watch(const Model &model, const MechanicsState &state,
                  const std::vector<double> &temperature, double time, unsigned phase,
                  const std::vector<double> &moisture)
{
  const Space &space = model.space;
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const PieceModel &piece = model.piece[space.piece[c]];
    const double T = temperature[space.cell_node[c][13]];
    const auto strength = materials::strengths(
        piece.law->wood(), T, moisture.empty() ? piece.moisture : moisture[space.cell_node[c][13]]);
    // The mean over the cell: stress at its corners is a matter of the mesh.
    materials::Vector6 mean{};
    double volume = 0;
    for (unsigned q = 0; q < points_per_cell; ++q) {
      const std::size_t p = std::size_t(c) * points_per_cell + q;
      volume += space.jxw[p];
      for (unsigned i = 0; i < 6; ++i)
        mean[i] += space.jxw[p] * state.wood[p].stress[i];
    }
    for (double &s : mean)
      s /= volume;
    const auto used = materials::use_of_strength(mean, strength);
    const Vec3 place = centre(space, c);
    raise(use, region(model, c, place), {used.share, place, time, phase, used.mode});
  }
  for (const FaceNode &n : face_nodes(space, unsigned(mesh::Face::board_top)))
    hottest_board_top = std::max(hottest_board_top, temperature[n.node]);

  line.assign(model.glue_line.size(), {});
  for (unsigned l = 0; l < model.glue_line.size(); ++l) {
    line[l] = line_ends(model, state, l);
    double hottest = 0;
    for (const GluePoint &p : model.glue_point)
      if (p.line == l) {
        hottest = std::max(hottest, temperature[p.upper]);
        if (l == 0)
          hottest_glue = std::max(hottest_glue, temperature[p.upper]);
      }
    if (hottest > 0 && line[l].shear > 0) {
      const double bond = materials::bond_strength(model.glue_line[l].glue, hottest);
      raise(use, model.glue_line[l].name + " glue line",
            {line[l].shear / bond, {line[l].shear_x, 0, 0}, time, phase, "shear along the line"});
    }
  }
}
} // namespace overbend::solver
