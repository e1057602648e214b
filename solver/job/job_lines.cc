// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/job_planner.h"

// The necks with a slow, a middle and a fast line, and a first pass that was done.
namespace overbend::solver
{
namespace
{
// How much coarser the target is in a search. Steps in time are coarser by search_steps until the
// plan is recorded: what they change of a reading stays below what anybody reads.
constexpr double search_coarseness = 2, search_steps = 5;
} // namespace

// A first pass of which bar and hold are not told was done as its plan said.
void JobPlanner::tell_heat_of_first_pass()
{
  cases::FirstPass &done = job.planned.first_pass;
  if (!done.done() || (done.bar_temperature && done.hold))
    return;
  cases::Case before = input.the_case;
  before.first_pass = {};
  choose_heat(before, coarse(), input.tables, input.lift);
  done.bar_temperature = done.bar_temperature.value_or(before.heater.bar_temperature);
  done.hold = done.hold.value_or(before.schedule.hold);
}

LineChoice JobPlanner::choice_at(double place, bool search) const
{
  LineChoice choice;
  choice.place = place;
  choice.stiffness_factor = input.stiffness_factor.value_or(1);
  choice.coarseness = search ? search_coarseness : 1;
  choice.step_coarseness = search_steps;
  return choice;
}

// Ready for the pass to be planned: after a first one that was done.
std::unique_ptr<NeckLine> JobPlanner::make_line(const mesh::NeckMesh &mesh, unsigned speed,
                                                const NeckLine *like) const
{
  LineChoice choice = choice_at(places[speed], &mesh == &coarse());
  choice.speed = line_speeds[speed];
  choice.overshoot = speed == fast ? job.heat.overshoot : 0;
  auto line =
      std::make_unique<NeckLine>(job.planned, mesh, input.tables, choice, input.stage, like);
  if (job.first_pass) {
    line->first_pass_as_done();
    line->take_up_as_read();
  }
  return line;
}

// How fast the line is that reads what was read after the first pass. What pulled then does not
// matter to a reading that the clamp was set to.
void JobPlanner::learn_from_first_pass()
{
  job.first_pass.reset();
  job.planned.bench = possible_devices().front();
  std::unique_ptr<NeckLine> like;
  const auto reads = [&](double place) {
    auto line = std::make_unique<NeckLine>(job.planned, coarse(), input.tables,
                                           choice_at(place, true), input.stage, like.get());
    const double bow = line->first_pass_as_done().bow;
    if (!like)
      like = std::move(line);
    return bow;
  };
  job.first_pass = fit_line(*job.planned.first_pass.bow, limits.bow_miss, reads);
  places = {job.first_pass->slow, job.first_pass->place, job.first_pass->fast};
}

NeckLine &JobPlanner::line(unsigned speed)
{
  if (!lines[speed])
    lines[speed] = make_line(coarse(), speed, lines[middle].get());
  return *lines[speed];
}

PlanColumn JobPlanner::run(unsigned speed, const PlanColumn &as)
{
  return line(speed).run(as.setting, as.cold_share);
}

void JobPlanner::read(unsigned speed, const PlanColumn &column, PassPlan &pass)
{
  pass.strung[speed] = column.reached;
  pass.released[speed] = line(speed).released(column);
}

void JobPlanner::write_down(const PlanColumn &column, PassPlan &pass)
{
  pass.overbend = column.setting;
  pass.cold = column.cold;
  pass.slack = column.slack;
  pass.cold_share = column.cold_share;
  pass.first_guess = column.first_guess;
  pass.sensitivity = column.sensitivity;
  pass.limit = column.limit;
  pass.limit_place = column.limit_place;
  pass.demands = column.demands;
}
} // namespace overbend::solver
