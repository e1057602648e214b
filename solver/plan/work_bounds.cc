// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/work_bounds.h"

#include "materials/strength.h"
#include "mesh/names.h"
#include "solver/model/interfaces.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
double overbend_share(const ClampSetting &setting, const Reading &as_built, double scale_length,
                      const materials::WorkLimits &limits)
{
  return std::abs(setting.bow + as_built.bow) / limits.most_overbend(scale_length);
}

std::vector<Demand> demands(const PlanColumn &column, const cases::Case &c,
                            const materials::Tables &tables)
{
  double pull = 0;
  for (const PhaseEnd &phase : column.history.phases)
    pull = std::max({pull, phase.largest_cord[0], phase.largest_cord[1]});
  std::vector<Demand> all{{Limit::cord_pull, pull / c.bench.cord_limit, {}},
                          {Limit::tuner_pull, pull / tables.tuner(c.tuners.kind).force_limit, {}},
                          {Limit::overbend,
                           overbend_share(column.setting, column.diagnosis.as_built,
                                          c.neck.scale_length, tables.limits),
                           {}}};
  std::map<Region, double> clamped;
  for (const auto &[phase, use] : column.peaks.in_phase)
    if (c.phases.at(phase).cords)
      for (const auto &[place, peak] : use) {
        double &most = clamped[place];
        most = std::max(most, peak.value / refused_from(place, peak, tables.limits));
      }
  for (const auto &[place, share] : clamped)
    all.push_back({Limit::strength, share, place});
  std::stable_sort(all.begin(), all.end(),
                   [](const Demand &a, const Demand &b) { return a.share > b.share; });
  return all;
}

Peak pad_use(const Model &model, const cases::Case &c, const StepRecord &step,
             const std::vector<double> &temperature, const std::vector<double> &moisture)
{
  const PieceModel &shaft = model.piece[static_cast<unsigned>(mesh::Piece::shaft)];
  double warmest = 0, dampest = moisture.empty() ? shaft.moisture : 0;
  const auto back = face_nodes(model.space, static_cast<unsigned>(mesh::Face::back));
  const auto off_middle = [&](const FaceNode &n) {
    return std::abs(model.space.position[n.node][0] - c.bench.cradle_x);
  };
  // A pad narrower than a cell may lie between the nodes: the nearest ones then speak for it.
  double reach = c.bench.cradle_width / 2, nearest = HUGE_VAL;
  for (const FaceNode &n : back)
    nearest = std::min(nearest, off_middle(n));
  reach = std::max(reach, nearest + 1e-6);
  for (const FaceNode &n : back)
    if (off_middle(n) <= reach) {
      warmest = std::max(warmest, temperature[n.node]);
      if (!moisture.empty())
        dampest = std::max(dampest, moisture[n.node]);
    }
  const double bears = materials::strengths(shaft.law->wood(), warmest, dampest).compression_across;
  return {step.forces.cradle_pressure / bears,
          {c.bench.cradle_x, 0, 0},
          step.time,
          step.phase,
          "pressed across the grain"};
}
} // namespace overbend::solver
