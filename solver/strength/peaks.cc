// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strength/peaks.h"

#include "mesh/names.h"
#include "solver/model/interfaces.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace overbend::solver
{
namespace
{
// Shear of a line is judged over this length, m: peaks at a line's end are local.
constexpr double window = 10e-3;

// The woods in a cell: more than one where a line between the strips of a shaft runs through it.
std::set<unsigned> woods_of(const Model &model, unsigned cell)
{
  std::set<unsigned> woods;
  for (unsigned q = 0; q < points_per_cell; ++q)
    woods.insert(model.wood_at(cell, std::size_t(cell) * points_per_cell + q));
  return woods;
}

// K; 0 for a line without points.
double hottest_of(const Model &model, unsigned line, const std::vector<double> &temperature)
{
  double hottest = 0;
  for (const GluePoint &p : model.glue_point)
    if (p.line == line)
      hottest = std::max(hottest, temperature[p.upper]);
  return hottest;
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

RegionUse wood_use(const Model &model, const StressMeans &means, const MechanicsState &state,
                   const std::vector<double> &temperature, const std::vector<double> &moisture)
{
  RegionUse all;
  const std::vector<materials::Use> use = means.use(model, state, temperature, moisture);
  for (std::size_t b = 0; b < use.size(); ++b) {
    const StressBox &box = means.boxes.box[b];
    const auto piece = mesh::Piece(model.space.piece[means.boxes.part[box.part].cell]);
    Peak &most = all[region_of(piece, box.place[0])];
    if (use[b].share > most.value)
      most = {use[b].share, box.place, 0, 0, use[b].mode};
  }
  return all;
}

Peak line_use(const Model &model, const LineEnds &ends, unsigned line,
              const std::vector<double> &temperature)
{
  const double hottest = hottest_of(model, line, temperature);
  if (!(hottest > 0) || !(ends.shear > 0))
    return {};
  const double bond = materials::bond_strength(model.glue_line[line].glue, hottest);
  return {ends.shear / bond, {ends.shear_x, 0, 0}, 0, 0, "shear along the line", ends.shear};
}

double refused_from(Region region, const Peak &peak, const materials::WorkLimits &limits)
{
  const bool crept = is_glue_line(region) && peak.hot_for > limits.bond_hot_time;
  return crept ? limits.bond_use_hot : limits.wood_use_refuse;
}

double caution_from(Region region, const materials::WorkLimits &limits)
{
  return is_glue_line(region) ? limits.bond_use_caution : limits.wood_use_caution;
}

Peaks::Peaks(const Model &model, const materials::WorkLimits &limits)
    : hot_time(limits.bond_hot_time), hot_share(limits.bond_use_hot / limits.wood_use_refuse),
      soft_since(model.glue_line.size(), never)
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

void Peaks::note(Region region, Peak peak)
{
  peak.held = load[region].held(peak.time, peak.value);
  peak.value = materials::lasting_share(peak.value, peak.held);
  raise(region, peak);
}

void Peaks::raise(Region region, const Peak &peak)
{
  const auto near_limit = [&](const Peak &p) {
    return p.value / (is_glue_line(region) && p.hot_for > hot_time ? hot_share : 1);
  };
  for (RegionUse *of : {&use, &in_phase[peak.phase]}) {
    Peak &most = (*of)[region];
    if (near_limit(peak) > near_limit(most))
      most = peak;
  }
}

void Peaks::watch_line(const Model &model, unsigned l, const std::vector<double> &temperature,
                       double time, unsigned phase)
{
  const GlueLineModel &glue_line = model.glue_line[l];
  const bool flows = !(glue_line.glue.plateau > 0);
  if (!flows || hottest_of(model, l, temperature) <= glue_line.law->softening_temperature())
    soft_since[l] = never;
  else
    soft_since[l] = std::min(soft_since[l], time);
  Peak peak = line_use(model, line[l], l, temperature);
  if (!(peak.value > 0))
    return;
  peak.time = time;
  peak.phase = phase;
  peak.hot_for = std::max(0., time - soft_since[l]);
  raise(region_of_line(l), peak);
}

void Peaks::watch(const Model &model, const StressMeans &means, const MechanicsState &state,
                  const std::vector<double> &temperature, double time, unsigned phase,
                  const std::vector<double> &moisture)
{
  for (auto &[region, peak] : wood_use(model, means, state, temperature, moisture)) {
    peak.time = time;
    peak.phase = phase;
    note(region, peak);
  }
  for (const FaceNode &n : face_nodes(model.space, unsigned(mesh::Face::board_top)))
    hottest_board_top = std::max(hottest_board_top, temperature[n.node]);
  hottest_glue = std::max(hottest_glue, hottest_of(model, 0, temperature));
  line.assign(model.glue_line.size(), {});
  for (unsigned l = 0; l < model.glue_line.size(); ++l) {
    line[l] = line_ends(model, state, l);
    watch_line(model, l, temperature, time, phase);
  }
}
} // namespace overbend::solver
