// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/neck_line.h"

#include "cases/declare/phases.h"
#include "solver/history/reading_at.h"
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

// The schedule of a first pass as it was done.
std::vector<cases::Phase> first_pass_done(const cases::Case &c)
{
  cases::Case done = c;
  done.heater.bar_temperature = c.first_pass.bar_temperature.value_or(c.heater.bar_temperature);
  done.schedule.hold = c.first_pass.hold.value_or(c.schedule.hold);
  done.schedule.second_reread = c.first_pass.let_up_to.has_value();
  return cases::scheduled_phases(done);
}

bool same_heat(const std::vector<cases::Phase> &a, const std::vector<cases::Phase> &b)
{
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const cases::Phase &x, const cases::Phase &y) {
                      return x.kind == y.kind && x.duration == y.duration &&
                             x.bar_temperature == y.bar_temperature;
                    });
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
      stage(std::move(on_stage)),
      pass_phases(c.first_pass.done() ? first_pass_done(c)
                                      : with_overshoot(c.phases, choice.overshoot))
{
  workbench = std::make_unique<Workbench>(the_case, mesh, tables,
                                          ModelChoices{choice.place, choice.stiffness_factor});
  planned_water = moisture_at_start(workbench->model, the_case);
  if (like != nullptr && (c.first_pass.done() || like->choice.overshoot == choice.overshoot)) {
    heat = like->first_heat;
    moisture = like->first_moisture;
  } else {
    stage("heat and moisture");
    follow_climates(planned_water);
  }
  first_heat = heat;
  first_moisture = moisture;
  if (like != nullptr && the_case.warp.cause != cases::Cause::hot_strung) {
    as_found = like->as_found;
  } else {
    stage("how the neck came to be bent");
    as_found = find_start(workbench->neck(), workbench->found_strings, moisture.at(0));
  }
  found = planned_from = as_found;
}

// Phases of a pass that is not the one done before planning. A later pass is not read twice.
std::vector<cases::Phase> NeckLine::first_phases(bool read_twice) const
{
  if (the_case.phases_listed || the_case.schedule.second_reread == read_twice)
    return with_overshoot(the_case.phases, choice.overshoot);
  cases::Case other = the_case;
  other.schedule.second_reread = read_twice;
  return with_overshoot(cases::scheduled_phases(other), choice.overshoot);
}

// The same heat and moisture: only what is read, and pulled, while they last is new.
void NeckLine::read_twice(bool twice)
{
  pass_phases = first_phases(twice);
}

Reading NeckLine::seen_at_second_reading(const PlanColumn &column) const
{
  const std::vector<cases::Phase> phases = first_phases(true);
  const double time = time_of_end(phases, cases::second_reading(phases).value());
  return reading_at(column.history, time);
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

PlanColumn NeckLine::aim_by_units()
{
  PlanColumn column = aim_plan(input(), *workbench, heat, found);
  column.speed = choice.speed;
  return column;
}

PlanColumn NeckLine::run(const ClampSetting &overbend, double cold_share,
                         const std::optional<ClampSetting> &second)
{
  PlanInput job = input();
  job.first_guess = overbend;
  job.second_setting = second;
  PlanColumn column = try_setting(job, *workbench, heat, found, cold_share, false);
  column.speed = choice.speed;
  end = column.history.kept;
  return column;
}

MoistureState NeckLine::water_at_end() const
{
  MoistureState water = moisture.state_at(time_of_end(pass_phases, end_of_pass(pass_phases)));
  water.time = 0;
  std::fill(water.travel.begin(), water.travel.end(), 0.);
  return water;
}

void NeckLine::next_pass()
{
  go_on_with(from_the_clamp(first_phases(false)));
}

void NeckLine::go_on_with(std::vector<cases::Phase> later)
{
  const MoistureState water = water_at_end();
  found.progress = std::move(end);
  found.progress.units.clear();
  stage("heat and moisture");
  // The neck is as cold as before the first pass: what was warmed then is warmed alike.
  if (!same_heat(later, pass_phases))
    heat = heat_of(*workbench, later, choice.step_coarseness);
  pass_phases = std::move(later);
  moisture = simulate_moisture(workbench->model, the_case, pass_phases, heat, water,
                               coarser(choice.step_coarseness));
}

Reading NeckLine::first_pass_as_done()
{
  const cases::FirstPass &done = the_case.first_pass;
  const Reading added = at_bench({});
  const ClampSetting overbend{*done.overbend - added.bow, done.overbend_twist - added.twist};
  std::optional<ClampSetting> let_up;
  if (done.let_up_to)
    let_up = ClampSetting{*done.let_up_to - added.bow,
                          done.let_up_twist.value_or(done.overbend_twist) - added.twist};
  return released(run(overbend, 1, let_up));
}

void NeckLine::take_up_as_read()
{
  planned_water = water_at_end();
  go_on_with(from_the_clamp(first_phases(false)));
  const cases::FirstPass &done = the_case.first_pass;
  const Reading reads = at_bench(read(workbench->lines, found.progress.state.displacement));
  Reading &added = found.diagnosis.as_built;
  const double bow = *done.bow - reads.bow, twist = done.twist ? *done.twist - reads.twist : 0;
  for (double Reading::*one : {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble})
    added.*one += bow;
  added.twist += twist;
  planned_from = found;
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
  // A history that was run before it was known that the pass is read twice has its own phases.
  const std::vector<PhaseEnd> &phases = column.history.phases;
  const bool as_now = phases.size() == pass_phases.size();
  const unsigned end_then = end_of_pass(as_now ? pass_phases : first_phases(false));
  return at_bench(phases.at(end_then).reading);
}
} // namespace overbend::solver
