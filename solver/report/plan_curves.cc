// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_curves.h"

#include "mesh/neck_profile.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
constexpr double under_the_back = 0.5e-3; // m
}

CurveRecorder::CurveRecorder(const Workbench &bench, const ThermalHistory &history)
    : workbench(bench), heat(history), reader(bench, history)
{
  const mesh::NeckProfile profile(bench.the_case.neck);
  const double x = std::clamp(bench.the_case.probe.x, 0., profile.body_join);
  const double y = 0.5 * profile.half_width(x);
  const double depth = mesh::profile_depth(profile.section(x), y);
  const Space &space = bench.model.space;
  board_top = find_point(space, {x, y, profile.board_height(y)});
  glue_line = find_point(space, {x, y, 0});
  mid_shaft = find_point(space, {x, y, -depth / 2});
  back = find_point(space, {x, y, -depth + under_the_back});
}

void CurveRecorder::observe(const StepRecord &step, const MechanicsState &state)
{
  if (step.phase == 0 && step.time <= 0)
    points.clear();
  const bool first = points.empty() || points.back().phase != step.phase;
  const HeatReading warm = first ? reader.at(step.time) : reader.just_before(step.time);
  const std::vector<double> T = heat.at(step.time);
  const LineEnds ends = line_ends(workbench.model, state, board_line);
  CurvePoint point;
  point.time = step.time;
  point.phase = step.phase;
  point.probe = warm.probe;
  point.bar = warm.bar;
  point.board_top = board_top.value(T);
  point.glue_line = glue_line.value(T);
  point.mid_shaft = mid_shaft.value(T);
  point.back = back.value(T);
  point.slip_nut_end = ends.slip_nut_end;
  point.slip_body_end = ends.slip_body_end;
  points.push_back(point);
}
} // namespace overbend::solver
