// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/work_bounds.h"

#include "materials/strength.h"
#include "mesh/names.h"
#include "solver/bench/pull_limits.h"
#include "solver/model/interfaces.h"
#include "solver/plan/clamp_setting.h"
#include "solver/words/pull_names.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace overbend::solver
{
double overbend_share(const ClampSetting &setting, const Reading &as_built, double scale_length,
                      const materials::WorkLimits &limits)
{
  return std::abs(setting.bow + as_built.bow) / limits.most_overbend(scale_length);
}

namespace
{
// Largest of each pull of the device, cold and hot, against what it bears.
void add_pulls(const PlanColumn &column, const cases::Case &c, unsigned decides,
               const materials::Tables &tables, std::vector<Demand> &all)
{
  const std::vector<PullLimit> limits = pull_limits(c, tables);
  const auto names = pull_names(c);
  for (std::size_t k = 0; k < limits.size(); ++k) {
    double asked[2] = {0, 0};
    for (const PhaseEnd &phase : column.history.phases) {
      double &most = asked[phase.phase < decides ? 0 : 1];
      most = std::max(most, phase.largest_cord[k]);
    }
    const Limit limit = limits[k].bound == PullBound::post ? Limit::tuner_pull : Limit::cord_pull;
    for (const Moment moment : {Moment::cold, Moment::hot}) {
      const double pull = asked[moment == Moment::hot];
      all.push_back({limit, pull / limits[k].refuse, names.at(k), moment, pull, limits[k].refuse});
    }
  }
}

// The most that each region is asked for while clamped, cold and hot, against what it bears then.
void add_strength(const PlanColumn &column, const std::vector<cases::Phase> &phases,
                  unsigned decides, const materials::WorkLimits &limits, std::vector<Demand> &all)
{
  std::map<std::pair<Region, Moment>, Demand> most;
  for (const auto &[phase, use] : column.peaks.in_phase)
    if (phases.at(phase).cords)
      for (const auto &[region, peak] : use) {
        const Moment moment = phase < decides ? Moment::cold : Moment::hot;
        const double bears = refused_from(region, peak, limits);
        Demand &now = most[{region, moment}];
        if (peak.value / bears >= now.share)
          now = {Limit::strength, peak.value / bears, name(region), moment, peak.value, bears,
                 region};
      }
  for (const auto &[where, demand] : most)
    all.push_back(demand);
}
} // namespace

std::vector<Demand> demands(const PlanColumn &column, const cases::Case &c,
                            const std::vector<cases::Phase> &phases,
                            const materials::Tables &tables)
{
  const unsigned decides = deciding_phase(phases);
  std::vector<Demand> all;
  add_pulls(column, c, decides, tables, all);
  const double over =
      overbend_share(column.setting, column.diagnosis.as_built, c.neck.scale_length, tables.limits);
  const double most = tables.limits.most_overbend(c.neck.scale_length);
  all.push_back({Limit::overbend, over, "", Moment::hot, over * most, most});
  add_strength(column, phases, decides, tables.limits, all);
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

void watch_peaks(Peaks &peaks, const Workbench &workbench, const cases::Case &the_case,
                 const StepRecord &step, const MechanicsState &state,
                 const std::vector<double> &temperature, const std::vector<double> &moisture)
{
  peaks.watch(workbench.model, workbench.means, state, temperature, step.time, step.phase,
              moisture);
  if (!(step.forces.cradle_pressure > 0))
    return;
  const Peak pad = pad_use(workbench.model, the_case, step, temperature, moisture);
  // No strength across the grain, no share: the plan names what is missing.
  if (pad.value > 0)
    peaks.note(Region::under_the_cradle, pad);
}
} // namespace overbend::solver
