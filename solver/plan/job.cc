// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/job.h"

#include "cases/case/first_pass.h"
#include "cases/declare/phases.h"
#include "mesh/make_neck_mesh.h"
#include "solver/plan/device_choice.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace overbend::solver
{
namespace
{
// Mesh on which set-up and passes are looked for, and how much coarser the target is there. Steps
// in time are coarser by search_steps until the plan is recorded: what they change of a reading
// stays below what anybody reads.
constexpr double search_resolution = 0.5, search_coarseness = 2, search_steps = 5;
constexpr unsigned most_passes = 2, most_devices = 3;
constexpr unsigned slow = 0, middle = 1, fast = 2;
// A fast line that ends less than this too far back (m) is where it may end.
constexpr double least_hold_back = 0.01e-3;

class JobPlanner
{
public:
  explicit JobPlanner(const JobInput &in)
      : input(in), limits(in.tables.limits),
        search_mesh(in.the_case.numerics.resolution > search_resolution
                        ? std::optional(mesh::make_neck_mesh(in.the_case.neck, search_resolution))
                        : std::nullopt)
  {
    job.planned = in.the_case;
    job.wanted.bow = in.the_case.target.relief;
    job.wanted.twist = in.the_case.target.twist;
  }

  Job plan()
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

private:
  // Heat, device and passes.
  void look_for_passes()
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
  bool may_lay_foil() const
  {
    return job.planned.schedule.wrap && job.planned.left_open.wrap_foil &&
           !job.planned.first_pass.done();
  }

  bool strength_gave() const
  {
    const auto gave = [](const auto &one) { return one.limit == Limit::strength; };
    return std::any_of(job.tried.begin(), job.tried.end(), gave) ||
           std::any_of(job.passes.begin(), job.passes.end(), gave);
  }

  // The case as it was asked, with what the plan has found it needs, and a first pass's heat as it
  // was told or planned.
  void start_over()
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

  // A first pass of which bar and hold are not told was done as its plan said.
  void tell_heat_of_first_pass()
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

  const mesh::NeckMesh &coarse() const { return search_mesh ? *search_mesh : input.mesh; }

  LineChoice choice_at(double place, bool search) const
  {
    LineChoice choice;
    choice.place = place;
    choice.stiffness_factor = input.stiffness_factor.value_or(1);
    choice.coarseness = search ? search_coarseness : 1;
    choice.step_coarseness = search_steps;
    return choice;
  }

  // Ready for the pass to be planned: after a first one that was done.
  std::unique_ptr<NeckLine> make_line(const mesh::NeckMesh &mesh, unsigned speed,
                                      const NeckLine *like = nullptr) const
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
  void learn_from_first_pass()
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

  std::vector<cases::Bench> possible_devices() const
  {
    return device_choices(job.planned, input.tables,
                          needs_of(cases::as_it_stands(job.planned), input.tables, input.lift,
                                   input.tension, job.heat.kept));
  }

  NeckLine &line(unsigned speed)
  {
    if (!lines[speed])
      lines[speed] = make_line(coarse(), speed, lines[middle].get());
    return *lines[speed];
  }

  // The first device that brings the middle line to its target; else the one that comes nearest.
  // False when the wood gives by its drying, however little is pulled, and foil may mend that.
  bool first_pass()
  {
    std::optional<PlanColumn> best;
    std::array<std::unique_ptr<NeckLine>, 3> best_lines;
    for (const cases::Bench &bench : possible_devices()) {
      if (job.tried.size() == most_devices)
        break;
      // What gave at the headstock gives again with whatever pulls on it.
      if (best && headstock_gave(*best) && !spares_headstock(bench.device))
        continue;
      job.planned.bench = bench;
      lines = {};
      lines[middle] = make_line(coarse(), middle);
      PlanColumn column = size_first_pass();
      job.tried.push_back({bench, column.reached, column.on_target, column.limit,
                           column.limit_place, column.demands});
      if (!column.within_limits && column.limit == Limit::strength && may_lay_foil())
        return false;
      if (best && !(miss(column) < miss(*best)))
        continue;
      best = std::move(column);
      best_lines = std::move(lines);
      best_bench = bench;
      const bool held_back = best->limit == Limit::fast_line && best->within_limits;
      if (best->on_target || held_back || !best->line_moves())
        break;
    }
    job.planned.bench = best_bench;
    lines = std::move(best_lines);
    job.line_moves = best->line_moves();
    job.diagnosis = best->diagnosis;
    finish_pass(*best);
    return true;
  }

  // Of the middle line, held back from the start by what the fast one makes of the setting that the
  // unit histories ask for.
  PlanColumn size_first_pass()
  {
    const PlanColumn aimed = line(middle).aim_by_units();
    if (!aimed.line_moves())
      return line(middle).size({aimed.setting, {}, &aimed.sensitivity});
    const PlanColumn quick = run(fast, aimed);
    if (ends_too_far_back(quick))
      return hold_back(aimed, furthest_for(quick, aimed));
    return line(middle).size({aimed.setting, {}, &aimed.sensitivity});
  }

  // Bow of the clamp (m, as the model reads) at which the fast line ends as far back as it may.
  double furthest_for(const PlanColumn &quick, const PlanColumn &of_middle) const
  {
    const double back = least_of_fast_line(job.planned, limits) - quick.reached.bow;
    return of_middle.setting.bow + back / share_kept(quick.reached, of_middle);
  }

  static bool headstock_gave(const PlanColumn &column)
  {
    return column.limit == Limit::strength &&
           (column.limit_place == Region::headstock_root ||
            column.limit_place == Region::scarf_bond || column.limit_place == Region::headstock);
  }

  double miss(const PlanColumn &column) const
  {
    return std::abs(column.reached.bow - job.wanted.bow) / limits.bow_miss +
           std::abs(column.reached.twist - job.wanted.twist) / limits.twist_miss +
           (column.within_limits ? 0 : 100);
  }

  // Sees to it that a fast line does not end too far back, and reads all three lines.
  void finish_pass(PlanColumn column)
  {
    PassPlan pass;
    // Where the middle line does not move, the others are not run.
    pass.strung.fill(column.reached);
    pass.released.fill(line(middle).released(column));
    if (job.line_moves) {
      PlanColumn quick = run(fast, column);
      if (ends_too_far_back(quick)) {
        column = hold_back(column, furthest_for(quick, column));
        quick = run(fast, column);
      }
      read(fast, quick, pass);
      read(slow, run(slow, column), pass);
      job.ends = is_close(column.reached, job.wanted, limits) && column.within_limits;
    }
    read(middle, column, pass);
    write_down(column, pass);
    before_way = column.setting.bow - column.slack.bow;
    job.passes.push_back(pass);
  }

  PlanColumn run(unsigned speed, const PlanColumn &as)
  {
    return line(speed).run(as.setting, as.cold_share);
  }

  // Share of the clamped way that a line keeps which reads `strung` with the middle line's setting:
  // by the straight line from where the clamp does nothing, which all lines share.
  static double share_kept(const Reading &strung, const PlanColumn &of_middle)
  {
    const double way = of_middle.setting.bow - of_middle.slack.bow;
    const double unclamped = of_middle.reached.bow - of_middle.sensitivity.bow_by_bow * way;
    return (strung.bow - unclamped) / way;
  }

  void read(unsigned speed, const PlanColumn &column, PassPlan &pass)
  {
    pass.strung[speed] = column.reached;
    pass.released[speed] = line(speed).released(column);
  }

  bool ends_too_far_back(const PlanColumn &quick) const
  {
    return quick.reached.bow < least_of_fast_line(job.planned, limits) - least_hold_back;
  }

  // The middle line once more, no further back than `furthest`.
  PlanColumn hold_back(const PlanColumn &column, double furthest)
  {
    NeckLine &neck = line(middle);
    const Sensitivity known = column.sensitivity;
    const double full = column.setting.bow - column.slack.bow;
    const double share = std::clamp((furthest - column.slack.bow) / full, 0., 1.);
    const ClampSetting held{column.slack.bow + share * full,
                            column.slack.twist +
                                share * (column.setting.twist - column.slack.twist)};
    return neck.size({held, held.bow, &known});
  }

  static void write_down(const PlanColumn &column, PassPlan &pass)
  {
    pass.overbend = column.setting;
    pass.cold = column.cold;
    pass.cold_share = column.cold_share;
    pass.first_guess = column.first_guess;
    pass.sensitivity = column.sensitivity;
    pass.limit = column.limit;
    pass.limit_place = column.limit_place;
    pass.demands = column.demands;
  }

  bool may_go_on() const
  {
    return job.passes.size() + (job.first_pass ? 1 : 0) < most_passes &&
           !job.planned.phases_listed && job.passes.back().limit != Limit::twist_out_of_reach;
  }

  void one_more_pass()
  {
    const PassPlan before = job.passes.back();
    for (unsigned speed : {slow, fast})
      kept[speed] = (before.strung[speed].bow - before.strung[middle].bow) / before_way +
                    before.sensitivity.bow_by_bow;
    lines[middle]->next_pass();
    // It keeps of a second clamping what it kept of the first.
    const Sensitivity known = before.sensitivity;
    const double more = job.wanted.bow - before.strung[middle].bow;
    const double turn = job.wanted.twist - before.strung[middle].twist;
    const ClampSetting now = lines[middle]->now();
    const ClampSetting guess{now.bow + more / known.bow_by_bow,
                             now.twist + turn / std::max(0.2, known.twist_by_twist)};
    finish_later_pass(line(middle).size({guess, {}, &known}));
  }

  // A later pass is planned anew from what was read: by then the line's speed is known, and each
  // line is clamped for itself, as far as a neck may be. What a slow or fast line then reads
  // follows from the share that it kept in the first pass; one that needs nothing more stays as it
  // is.
  void finish_later_pass(const PlanColumn &column)
  {
    PassPlan pass = job.passes.back();
    const double furthest = limits.most_overbend(job.planned.neck.scale_length);
    for (const unsigned speed : {slow, fast}) {
      const double missing = job.wanted.bow - pass.strung[speed].bow;
      if (missing > 0)
        continue;
      const double most = kept[speed] * (-furthest - pass.released[speed].bow);
      const double moved = std::max(missing, std::min(0., most));
      for (Reading *one : {&pass.strung[speed], &pass.released[speed]})
        for (double Reading::*what : {&Reading::bow_bass, &Reading::bow, &Reading::bow_treble})
          one->*what += moved;
    }
    read(middle, column, pass);
    write_down(column, pass);
    job.passes.push_back(pass);
    job.ends = is_close(column.reached, job.wanted, limits) && column.within_limits;
  }

  // The middle line on the mesh that was asked for; the other lines differ from it as they did on
  // the coarse one.
  void settle_on_the_mesh_asked_for()
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
      move_lines(pass.strung, column.reached);
      move_lines(pass.released, fine.released(column));
      write_down(column, pass);
      job.ends = is_close(column.reached, job.wanted, limits) && column.within_limits;
    }
  }

  static void move_lines(BySpeed &lines, const Reading &to)
  {
    const Reading from = lines[middle];
    for (Reading &one : lines) {
      one.bow_bass += to.bow_bass - from.bow_bass;
      one.bow += to.bow - from.bow;
      one.bow_treble += to.bow_treble - from.bow_treble;
      one.twist += to.twist - from.twist;
    }
  }

  void fill_in_pulls()
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

  const JobInput &input;
  const materials::WorkLimits &limits;
  const std::optional<mesh::NeckMesh> search_mesh;
  Job job;
  // Places in the spread of slow, middle and fast line (materials::place_in_spread).
  std::array<double, 3> places = {-1, 0, 1};
  std::array<std::unique_ptr<NeckLine>, 3> lines;
  cases::Bench best_bench;
  std::array<double, 3> kept{};                 // share of the clamped way, in the first pass
  double before_way = 1;                        // m, clamped way of the first pass
  bool holds_longest = false, has_foil = false; // beyond what was chosen at first
};
} // namespace

bool is_close(const Reading &reached, const Reading &wanted, const materials::WorkLimits &limits)
{
  return std::abs(reached.bow - wanted.bow) <= limits.bow_miss &&
         std::abs(reached.twist - wanted.twist) <= limits.twist_miss;
}

Job plan_job(const JobInput &input)
{
  return JobPlanner(input).plan();
}
} // namespace overbend::solver
