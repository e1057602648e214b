// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/peaks.h"

#include "mesh/neck_mesh.h"
#include "solver/model/interfaces.h"
#include "solver/plan/cell_use.h"

#include <algorithm>
#include <cmath>
#include <optional>
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

// The woods in a cell: more than one where a line between the strips of a shaft runs through it.
std::set<unsigned> woods_of(const Model &model, unsigned cell)
{
  std::set<unsigned> woods;
  for (unsigned q = 0; q < points_per_cell; ++q)
    woods.insert(model.wood_at(cell, std::size_t(cell) * points_per_cell + q));
  return woods;
}
} // namespace

LineEnds line_ends(std::vector<LinePoint> points)
{
  LineEnds ends;
  if (points.empty())
    return ends;
  std::sort(points.begin(), points.end(),
            [](const LinePoint &a, const LinePoint &b) { return a.along < b.along; });
  const auto mean = [&](double LinePoint::*what, double from, double to) {
    double sum = 0, area = 0;
    for (const LinePoint &p : points)
      if (p.along >= from - 1e-9 && p.along <= to + 1e-9) {
        sum += p.*what * p.area;
        area += p.area;
      }
    return area > 0 ? sum / area : 0;
  };
  const double first = points.front().along, last = points.back().along;
  ends.slip_nut_end = mean(&LinePoint::slip, first, first + 1e-3);
  ends.slip_body_end = mean(&LinePoint::slip, last - 1e-3, last);
  ends.shear_nut_end = mean(&LinePoint::shear, first, first + window);
  ends.shear_body_end = mean(&LinePoint::shear, last - window, last);
  const double last_start = std::max(first, last - window);
  for (double from = first;; from = std::min(from + window / 2, last_start)) {
    const double shear = std::abs(mean(&LinePoint::shear, from, from + window));
    if (shear > ends.shear) {
      ends.shear = shear;
      ends.shear_x = mean(&LinePoint::x, from, from + window);
    }
    if (from >= last_start)
      return ends;
  }
}

LineEnds line_ends(const Model &model, const MechanicsState &state, unsigned line)
{
  std::vector<LinePoint> points;
  for (std::size_t g = 0; g < model.glue_point.size(); ++g)
    if (model.glue_point[g].line == line) {
      const GluePoint &p = model.glue_point[g];
      const Vec3 &place = model.space.position[p.upper];
      // The scarf is a plane at an angle to the neck: 10 mm of it are less along x.
      points.push_back({place[0] * p.along[0] + place[2] * p.along[2], place[0], p.weight,
                        state.glue[g].slip[0],
                        model.glue_line[line].law->traction(state.glue[g])[0]});
    }
  return line_ends(std::move(points));
}

std::map<std::string, Peak> wood_use(const Model &model, const MechanicsState &state,
                                     const std::vector<double> &temperature,
                                     const std::vector<double> &moisture)
{
  const Space &space = model.space;
  std::map<std::string, Peak> use;
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const unsigned middle = space.cell_node[c][13];
    const auto water = moisture.empty() ? std::nullopt : std::optional(moisture[middle]);
    const auto used = use_in_cell(model, state, c, temperature[middle], water);
    const Vec3 place = centre(space, c);
    raise(use, region(model, c, place), {used.share, place, 0, 0, used.mode});
  }
  return use;
}

Peak line_use(const Model &model, const LineEnds &ends, unsigned line,
              const std::vector<double> &temperature)
{
  double hottest = 0;
  for (const GluePoint &p : model.glue_point)
    if (p.line == line)
      hottest = std::max(hottest, temperature[p.upper]);
  if (!(hottest > 0) || !(ends.shear > 0))
    return {};
  const double bond = materials::bond_strength(model.glue_line[line].glue, hottest);
  return {ends.shear / bond, {ends.shear_x, 0, 0}, 0, 0, "shear along the line", ends.shear};
}

Peaks::Peaks(const Model &model)
{
  std::set<std::string> names;
  std::set<unsigned> woods;
  for (unsigned c = 0; c < model.space.n_cells; ++c)
    woods.merge(woods_of(model, c));
  for (const unsigned wood : woods)
    for (const std::string &mode : materials::missing_modes(model.wood(wood).law->wood()))
      names.insert(model.wood(wood).law->wood().name + ": " + mode);
  missing.assign(names.begin(), names.end());
}

void Peaks::watch(const Model &model, const MechanicsState &state,
                  const std::vector<double> &temperature, double time, unsigned phase,
                  const std::vector<double> &moisture)
{
  const auto raise_at = [&](const std::string &name, Peak peak) {
    peak.time = time;
    peak.phase = phase;
    raise(use, name, peak);
  };
  for (const auto &[name, peak] : wood_use(model, state, temperature, moisture))
    raise_at(name, peak);
  for (const FaceNode &n : face_nodes(model.space, unsigned(mesh::Face::board_top)))
    hottest_board_top = std::max(hottest_board_top, temperature[n.node]);
  for (const GluePoint &p : model.glue_point)
    if (p.line == 0)
      hottest_glue = std::max(hottest_glue, temperature[p.upper]);
  line.assign(model.glue_line.size(), {});
  for (unsigned l = 0; l < model.glue_line.size(); ++l) {
    line[l] = line_ends(model, state, l);
    const Peak peak = line_use(model, line[l], l, temperature);
    if (peak.value > 0)
      raise_at(model.glue_line[l].name + " glue line", peak);
  }
}
} // namespace overbend::solver
