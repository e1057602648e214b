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

namespace overbend::solver
{
const char *const under_the_cradle = "back under the cradle";

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
  const double refuse = tables.limits.wood_use_refuse;
  for (const auto &[place, peak] : column.peaks.use)
    if (phases.at(peak.phase).cords)
      all.push_back({Limit::strength, peak.value / refuse, place,
                     peak.phase < decides ? Moment::cold : Moment::hot, peak.value, refuse});
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
  peaks.watch(workbench.model, state, temperature, step.time, step.phase, moisture);
  if (!(step.forces.cradle_pressure > 0))
    return;
  const Peak pad = pad_use(workbench.model, the_case, step, temperature, moisture);
  // No strength across the grain, no share: the plan names what is missing.
  if (pad.value > 0 && pad.value > peaks.use[under_the_cradle].value)
    peaks.use[under_the_cradle] = pad;
}
} // namespace overbend::solver
