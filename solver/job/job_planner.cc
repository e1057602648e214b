// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/job_planner.h"

#include "cases/declare/phases.h"
#include "mesh/make_neck_mesh.h"

#include <algorithm>

// The order of things: heat, first pass, second pass, what is tried where they do not end the job.
namespace overbend::solver
{
namespace
{
// Mesh on which set-up and passes are looked for.
constexpr double search_resolution = 0.5;
} // namespace

JobPlanner::JobPlanner(const JobInput &in)
    : input(in), limits(in.tables.limits),
      search_mesh(in.the_case.numerics.resolution > search_resolution
                      ? std::optional(mesh::make_neck_mesh(in.the_case.neck, search_resolution))
                      : std::nullopt)
{
  job.planned = in.the_case;
  job.wanted.bow = in.the_case.target.relief;
  job.wanted.twist = in.the_case.target.twist;
}

Job JobPlanner::plan()
{
  tell_heat_of_first_pass();
  look_for_passes();
  // Where that does not end the job, the longest hold may. Wood that dries shrinks and has less
  // strength left for the clamp: foil keeps it damp.
  if (!job.ends && job.planned.left_open.hold && job.planned.schedule.hold < longest_hold) {
    holds_longest = true;
    start_over();
    look_for_passes();
  }
  if (!job.ends && may_lay_foil() && strength_gave()) {
    has_foil = true;
    start_over();
    look_for_passes();
  }
  settle_on_the_mesh_asked_for();
  if (job.first_pass)
    job.planned.phases = job.line->phases();
  else if (!job.planned.phases_listed)
    job.planned.phases = cases::scheduled_phases(job.planned, int(job.passes.size()));
  fill_in_pulls();
  return std::move(job);
}

// Heat, device and passes.
void JobPlanner::look_for_passes()
{
  input.stage("choice of heat");
  job.heat = choose_heat(job.planned, coarse(), input.tables, input.lift);
  if (job.planned.first_pass.done())
    learn_from_first_pass();
  if (!first_pass()) {
    has_foil = true;
    start_over();
    return look_for_passes();
  }
  while (job.line_moves && !job.ends && may_go_on())
    one_more_pass();
}

// A first pass that was done was wrapped as its plan said.
bool JobPlanner::may_lay_foil() const
{
  return job.planned.schedule.wrap && job.planned.left_open.wrap_foil &&
         !job.planned.first_pass.done();
}

bool JobPlanner::strength_gave() const
{
  const auto gave = [](const auto &one) { return one.limit == Limit::strength; };
  return std::any_of(job.tried.begin(), job.tried.end(), gave) ||
         std::any_of(job.passes.begin(), job.passes.end(), gave);
}

// The case as it was asked, with what the plan has found it needs, and a first pass's heat as it
// was told or planned.
void JobPlanner::start_over()
{
  cases::Case again = input.the_case;
  again.first_pass = job.planned.first_pass;
  if (holds_longest) {
    again.schedule.hold = longest_hold;
    again.left_open.hold = false;
  }
  if (has_foil) {
    again.schedule.wrap_foil = true;
    again.left_open.wrap_foil = false;
  }
  job = Job();
  job.planned = std::move(again);
  job.wanted.bow = input.the_case.target.relief;
  job.wanted.twist = input.the_case.target.twist;
}

// The middle line on the mesh that was asked for; the other lines differ from it as they did on
// the coarse one.
void JobPlanner::settle_on_the_mesh_asked_for()
{
  if (!search_mesh) {
    job.line = std::move(lines[middle]);
    return;
  }
  job.line = make_line(input.mesh, middle);
  NeckLine &fine = *job.line;
  job.diagnosis = fine.diagnosis();
  for (std::size_t k = 0; job.line_moves && k < job.passes.size(); ++k) {
    PassPlan &pass = job.passes[k];
    if (k > 0)
      fine.next_pass();
    const std::optional<double> furthest =
        pass.limit == Limit::fast_line ? std::optional(pass.overbend.bow) : std::nullopt;
    const Sensitivity known = pass.sensitivity;
    const PlanColumn column = fine.size({pass.overbend, furthest, &known});
    if (pass.second)
      move_second_reading(*pass.second, column, pass.overbend);
    move_lines(pass.strung, column.reached);
    move_lines(pass.released, fine.released(column));
    write_down(column, pass);
    job.ends = is_close(column.reached, job.wanted, limits) && column.within_limits;
  }
}

// What the middle line reads on the mesh asked for; the others, and what is let up, moved as it and
// the overbend are.
void JobPlanner::move_second_reading(SecondReading &second, const PlanColumn &column,
                                     const ClampSetting &before) const
{
  const Reading middle_now = job.line->at_bench(job.line->seen_at_second_reading(column));
  const double seen = middle_now.bow - second.middle.bow;
  second.slow.bow += seen;
  second.middle = middle_now;
  for (LetUp &one : second.faster) {
    one.seen.bow += seen;
    one.to.bow += column.setting.bow - before.bow;
    one.to.twist += column.setting.twist - before.twist;
  }
}

void JobPlanner::move_lines(BySpeed &lines, const Reading &to)
{
  const Reading from = lines[middle];
  for (Reading &one : lines) {
    one.bow_bass += to.bow_bass - from.bow_bass;
    one.bow += to.bow - from.bow;
    one.bow_treble += to.bow_treble - from.bow_treble;
    one.twist += to.twist - from.twist;
  }
}

void JobPlanner::fill_in_pulls()
{
  for (cases::Phase &phase : job.planned.phases) {
    if (phase.pull.kind != cases::Pull::Kind::to_reading)
      continue;
    const std::size_t at = std::min(std::size_t(phase.pass), job.passes.size()) - 1;
    const PassPlan &pass = job.passes[at];
    const ClampSetting &to = phase.pull.decides ? pass.overbend : pass.cold;
    phase.pull.bow = to.bow;
    phase.pull.twist = to.twist;
  }
}
} // namespace overbend::solver
