// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/neck_line.h"

#include "cases/phases.h"
#include "solver/readings/fret_surface.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
std::vector<cases::Phase> with_overshoot(std::vector<cases::Phase> phases, double overshoot)
{
  for (cases::Phase &phase : phases)
    if (phase.heater)
      phase.bar_temperature += overshoot;
  return phases;
}

// What a later pass repeats: from the first clamping on.
std::vector<cases::Phase> from_the_clamp(const std::vector<cases::Phase> &phases)
{
  const auto first = std::find_if(phases.begin(), phases.end(),
                                  [](const cases::Phase &phase) { return phase.cords; });
  return {first, phases.end()};
}

MoistureStepLimits coarser(double coarseness)
{
  MoistureStepLimits limits;
  limits.error *= coarseness;
  return limits;
}

double time_of_end(const std::vector<cases::Phase> &phases, unsigned last)
{
  double time = 0;
  for (unsigned i = 0; i <= last; ++i)
    time += phases[i].duration;
  return time;
}
} // namespace

unsigned end_of_pass(const std::vector<cases::Phase> &phases)
{
  bool clamped = false;
  for (unsigned i = 0; i < phases.size(); ++i) {
    clamped = clamped || phases[i].cords;
    if (clamped && phases[i].strings)
      return i > 0 ? i - 1 : 0;
  }
  return unsigned(phases.size() - 1);
}

NeckLine::NeckLine(const cases::Case &c, const mesh::NeckMesh &the_mesh,
                   const materials::Tables &the_tables, const LineChoice &the_choice,
                   std::function<void(const std::string &)> on_stage, const NeckLine *like)
    : the_case(c), mesh(the_mesh), tables(the_tables), choice(the_choice),
      stage(std::move(on_stage)), pass_phases(with_overshoot(c.phases, choice.overshoot))
{
  workbench =
      std::make_unique<Workbench>(input(), ModelChoices{choice.speed, choice.stiffness_factor});
  if (like != nullptr && like->choice.overshoot == choice.overshoot) {
    heat = like->first_heat;
    moisture = like->first_moisture;
  } else {
    stage("heat");
    follow_climates(moisture_at_start(workbench->model, the_case));
  }
  first_heat = heat;
  first_moisture = moisture;
  if (like != nullptr && the_case.warp.cause != cases::Cause::hot_strung) {
    as_found = like->as_found;
  } else {
    stage("start");
    as_found = find_start(the_case, workbench->model, workbench->bench, workbench->lines,
                          workbench->found_strings, workbench->mechanics, moisture.at(0));
  }
  found = as_found;
}

PlanInput NeckLine::input() const
{
  PlanInput job{the_case, mesh, tables, stage, {}};
  job.moisture = &moisture;
  job.phases = &pass_phases;
  job.coarseness = choice.coarseness;
  job.step_coarseness = choice.step_coarseness;
  job.keep_after = end_of_pass(pass_phases);
  return job;
}

void NeckLine::follow_climates(const MoistureState &start)
{
  heat = heat_of(*workbench, pass_phases, choice.step_coarseness);
  moisture = simulate_moisture(workbench->model, the_case, pass_phases, heat, start,
                               coarser(choice.step_coarseness));
}

PlanColumn NeckLine::size(const Aim &aim)
{
  PlanInput job = input();
  job.first_guess = aim.first_guess;
  job.furthest_bow = aim.furthest_bow;
  job.sensitivity = aim.sensitivity;
  PlanColumn column = make_plan(job, *workbench, heat, found);
  column.speed = choice.speed;
  end = column.history.kept;
  return column;
}

PlanColumn NeckLine::run(const ClampSetting &overbend, double cold_share)
{
  PlanInput job = input();
  job.first_guess = overbend;
  PlanColumn column = try_setting(job, *workbench, heat, found, cold_share, false);
  column.speed = choice.speed;
  end = column.history.kept;
  return column;
}

void NeckLine::next_pass()
{
  const unsigned last = end_of_pass(pass_phases);
  MoistureState water = moisture.state_at(time_of_end(pass_phases, last));
  water.time = 0;
  std::fill(water.travel.begin(), water.travel.end(), 0.);
  found.progress = std::move(end);
  found.progress.units.clear();
  std::vector<cases::Phase> later = from_the_clamp(pass_phases);
  stage("heat");
  // The neck is as cold as before the first pass: what was warmed then is warmed alike.
  if (later.size() != pass_phases.size())
    heat = heat_of(*workbench, later, choice.step_coarseness);
  pass_phases = std::move(later);
  moisture = simulate_moisture(workbench->model, the_case, pass_phases, heat, water,
                               coarser(choice.step_coarseness));
}

ClampSetting NeckLine::now() const
{
  const Reading r = read(workbench->lines, found.progress.state.displacement);
  return {r.bow, r.twist};
}

Reading NeckLine::at_bench(const Reading &of_model) const
{
  return solver::at_bench(the_case, of_model, found.diagnosis.as_built);
}

Reading NeckLine::released(const PlanColumn &column) const
{
  return at_bench(column.history.phases.at(end_of_pass(pass_phases)).reading);
}
} // namespace overbend::solver
