// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/plan.h"

#include "cases/read/read_case.h"
#include "solver/plan/first_guess.h"
#include "solver/plan/sliding_line.h"
#include "solver/plan/work_bounds.h"
#include "solver/readings/fret_surface.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr unsigned most_full_runs = 4;
// Units are scaled to what a bench would change: they are linear, and this keeps their numbers near
// those of the base.
constexpr double unit_bow = 1e-3, unit_twist = 0.01;
// Share of slip below which the first guess does not go: a line that does not move has no answer.
constexpr double least_share = 0.2;
// A setting that a limit stops is brought to this share of the limit, and is close enough to it
// from the second on.
constexpr double aimed_at_limit = 0.98, close_to_limit = 0.95;
// Twist (rad) off the line to the target up to which forces are extrapolated along it.
constexpr double near_the_line = 0.2 * 3.14159265358979323846 / 180;
// Settings closer than this along the way are one (m).
constexpr double least_way = 1e-5;

// Limits that are met by going less far.
bool is_bound(Limit limit)
{
  return limit == Limit::cord_pull || limit == Limit::tuner_pull || limit == Limit::strength ||
         limit == Limit::overbend || limit == Limit::fast_line;
}

// The step at which the target is read.
const StepRecord &target_step(const std::vector<cases::Phase> &phases, const History &history)
{
  const unsigned last = phase_at_date(phases);
  return *std::find_if(history.steps.rbegin(), history.steps.rend(),
                       [&](const StepRecord &step) { return step.phase <= last; });
}

class Planner
{
public:
  Planner(const PlanInput &input_, Workbench &bench_, const ThermalHistory &heat_,
          const FoundNeck &found_)
      : input(input_), the_case(input_.the_case),
        phases(input_.phases ? *input_.phases : input_.the_case.phases), workbench(bench_),
        heat(heat_), found(found_)
  {
    column.diagnosis = found.diagnosis;
    column.wanted.bow = the_case.target.relief;
    column.wanted.twist = the_case.target.twist;
    const Reading now = read(workbench.lines, found.progress.state.displacement);
    const Reading added = read_at_bench({});
    rule.found = column.slack = {now.bow, now.twist};
    rule.straight = {-added.bow, -added.twist};
  }

  PlanColumn plan()
  {
    guess();
    begin();
    for (bool renewed = false;;) {
      run_full();
      if (meets_all())
        break;
      const bool bound = is_bound(column.limit);
      if (column.full_runs == most_full_runs || (column.limit != Limit::none && !bound))
        break;
      // Contact or slack changed if the units now miss by much: renew them once, before any limit
      // is judged by what they aimed at.
      if (!renewed && (slack_in_units ? pulls_reached : !bound && missed() > 5)) {
        run_with_units();
        renewed = true;
      }
      column.limit = Limit::none;
      aim();
      if (bound && column.within_limits && is_bound(column.limit) && has_settled())
        break;
    }
    column.setting = base_setting;
    column.cold = cold_setting(rule, base_setting);
    column.cold_share = rule.cold_share;
    return std::move(column);
  }

  PlanColumn aimed()
  {
    guess();
    begin();
    column.reached = predicted();
    return std::move(column);
  }

  PlanColumn try_one(double cold_share, bool with_units)
  {
    column.setting = column.first_guess = input.first_guess.value();
    rule.cold_share = cold_share_run = cold_share;
    if (with_units) {
      run_with_units();
      column.reached = base_reading;
    } else {
      run_full();
    }
    column.on_target = missed() <= 1;
    meets_all();
    column.cold = cold_setting(rule, column.setting);
    column.cold_share = cold_share;
    return std::move(column);
  }

private:
  double share_kept_cold() const { return found.diagnosis.bonded_share; }

  SlippingBeam slipping_beam(double lift) const
  {
    return solver::slipping_beam(the_case, workbench.planned_strings.total, share_kept_cold(),
                                 lift);
  }

  void guess()
  {
    const Diagnosis &d = found.diagnosis;
    const double lift =
        string_lift(workbench.model, workbench.bench, workbench.lines, workbench.planned_strings,
                    workbench.mechanics, rod_left_in(the_case));
    LineStiffness line = relaxed_line(workbench.model, phases, heat);
    line.locked_at_body = locked_at_body(the_case);
    const double share =
        std::max(least_share, share_of_slip(slipping_beam(lift), line, moment_of_clamp(the_case),
                                            read_over(the_case)));
    const Reading added = read_at_bench({});
    const double limit = input.tables.limits.most_overbend(the_case.neck.scale_length);
    column.setting.bow = std::clamp(clamp_for(column.wanted.bow - added.bow - lift, rule.found.bow,
                                              d.wood_share(), d.bonded_share, share),
                                    -limit, limit);
    const double twist_sum = d.slip_twist + d.wood_twist;
    const double q = std::abs(twist_sum) > 0 ? d.wood_twist / twist_sum : 0;
    // Twist relaxes at a stiffer line than bending: complete slip is near.
    column.setting.twist =
        clamp_for(column.wanted.twist - added.twist, rule.found.twist, q, d.bonded_twist_share, 1);
    if (input.first_guess)
      column.setting = *input.first_guess;
    if (input.furthest_bow)
      column.setting.bow = std::max(column.setting.bow, *input.furthest_bow);
    column.first_guess = column.setting;
  }

  // With what the units say, or with what they said on another mesh.
  void begin()
  {
    if (input.sensitivity == nullptr) {
      run_with_units();
      aim();
    } else {
      column.sensitivity = *input.sensitivity;
      base_setting = column.setting;
      if (input.furthest_bow && column.setting.bow <= *input.furthest_bow)
        column.limit = Limit::fast_line;
    }
  }

  History run(const Progress &start, bool final_run)
  {
    column.peaks = Peaks(workbench.model, input.tables.limits);
    SimulationOptions options;
    options.bow_error = input.step_coarseness * the_case.numerics.bow_error;
    options.first_step *= input.step_coarseness;
    options.largest_log_shift *= std::min(2., input.step_coarseness);
    options.moisture = input.moisture;
    options.keep_after = input.keep_after;
    options.observe = [&](const StepRecord &step, const MechanicsState &state) {
      watch(step, state);
      if (final_run && input.observe_final)
        input.observe_final(step, state);
    };
    return simulate(the_case, with_setting(phases, rule, column.setting), workbench.model,
                    workbench.bench, workbench.lines, workbench.planned_strings, heat, start,
                    workbench.mechanics, options);
  }

  void watch(const StepRecord &step, const MechanicsState &state)
  {
    watch_peaks(column.peaks, workbench, the_case, step, state, heat.at(step.time),
                moisture_at(input.moisture, step.time));
  }

  Reading read_at_bench(const Reading &of_model) const
  {
    return at_bench(the_case, of_model, found.diagnosis.as_built);
  }

  void run_with_units()
  {
    input.stage("trial run and small changes");
    Progress start = found.progress;
    start.units.clear();
    for (unsigned k = 0; k < 2; ++k) {
      Unit unit;
      (k == 0 ? unit.bow : unit.twist) = k == 0 ? unit_bow : unit_twist;
      unit.state = unstressed(workbench.model);
      start.units.push_back(unit);
    }
    const History history = run(start, false);
    ++column.unit_runs;
    const StepRecord &last = target_step(phases, history);
    base_setting = column.setting;
    base_reading = read_at_bench(last.reading);
    Sensitivity &s = column.sensitivity;
    s.bow_by_bow = last.unit[0].bow / unit_bow;
    s.twist_by_bow = last.unit[0].twist / unit_bow;
    s.bow_by_twist = last.unit[1].bow / unit_twist;
    s.twist_by_twist = last.unit[1].twist / unit_twist;
    column.history = history;
    note_pulls(history);
    slack_in_units = !pulls_reached;
    column.demands = demands(column, the_case, phases, input.tables);
  }

  // Only the pulls of the overbend: a cold pull that does not reach straight is no matter.
  void note_pulls(const History &history)
  {
    pulls_reached = true;
    for (const PhaseEnd &p : history.phases)
      pulls_reached = pulls_reached && (p.pull_reached || !phases[p.phase].pull.decides);
  }

  // Moves the setting to where the units say that the target is.
  void aim()
  {
    const Sensitivity &s = column.sensitivity;
    const double bow = column.wanted.bow - base_reading.bow,
                 twist = column.wanted.twist - base_reading.twist;
    if (!(s.bow_by_bow > input.tables.limits.least_kept)) {
      column.limit = Limit::line_does_not_move;
      column.setting = base_setting;
      return;
    }
    const double det = s.bow_by_bow * s.twist_by_twist - s.bow_by_twist * s.twist_by_bow;
    if (pulls_reached && std::abs(s.twist_by_twist) > 1e-6) {
      column.setting.bow =
          base_setting.bow + (bow * s.twist_by_twist - twist * s.bow_by_twist) / det;
      column.setting.twist =
          base_setting.twist + (twist * s.bow_by_bow - bow * s.twist_by_bow) / det;
    } else {
      column.setting.bow = base_setting.bow + bow / s.bow_by_bow;
    }
    look_ahead();
  }

  // Before a run: how far along the line from the neck at hand to the setting its limits let it go,
  // by what the last run asked of bench and neck.
  void look_ahead()
  {
    full = column.setting;
    way_share = 1;
    keep_within_overbend();
    keep_forward_of_fast_line();
    keep_within_forces();
    column.setting = {rule.found.bow + way_share * (full.bow - rule.found.bow),
                      rule.found.twist + way_share * (full.twist - rule.found.twist)};
  }

  void keep_within_overbend()
  {
    const double as_built = column.diagnosis.as_built.bow;
    const double over = overbend_share(full, column.diagnosis.as_built, the_case.neck.scale_length,
                                       input.tables.limits);
    const double way = full.bow - rule.found.bow;
    if (!(over > 1) || std::abs(way) < least_way)
      return;
    const double bow = full.bow + as_built;
    way_share = 1 - (bow - bow / over) / way;
    column.limit = Limit::overbend;
  }

  void keep_forward_of_fast_line()
  {
    const double way = full.bow - rule.found.bow;
    if (!input.furthest_bow || std::abs(way) < least_way)
      return;
    const double share = std::max(0., (*input.furthest_bow - rule.found.bow) / way);
    if (full.bow < *input.furthest_bow && share < way_share) {
      way_share = share;
      column.limit = Limit::fast_line;
    }
  }

  // Forces grow with the way only if the twist keeps its part of it.
  void keep_within_forces()
  {
    const double way = full.bow - rule.found.bow, last_way = base_setting.bow - rule.found.bow;
    if (std::abs(way) < least_way || std::abs(last_way) < least_way)
      return;
    const double twist_there = rule.found.twist + last_way / way * (full.twist - rule.found.twist);
    if (!(std::abs(base_setting.twist - twist_there) < near_the_line * std::abs(last_way / way)))
      return;
    for (const Demand &d : column.demands) {
      if (d.moment == Moment::cold) {
        spare_the_cold_pull(d);
        continue;
      }
      const double expected = d.share * std::abs(way_share * way / last_way);
      if (d.limit == Limit::overbend || !(expected > 1))
        continue;
      way_share *= aimed_at_limit / expected;
      name_limit(d);
    }
  }

  // A cold pull beyond a limit goes less far; what is missing comes when the line is soft.
  void spare_the_cold_pull(const Demand &d)
  {
    if (d.share > 1 && !phases_decide_cold())
      rule.cold_share = std::min(rule.cold_share, cold_share_run * aimed_at_limit / d.share);
  }

  bool phases_decide_cold() const { return !phases[deciding_phase(phases)].heater; }

  void name_limit(const Demand &demand)
  {
    column.limit = demand.limit;
    column.limit_place = demand.region;
  }

  bool meets_all()
  {
    const auto tightest = std::find_if(column.demands.begin(), column.demands.end(),
                                       [&](const Demand &d) { return binds(d); });
    column.within_limits = tightest == column.demands.end();
    if (column.within_limits && column.on_target) {
      column.limit = Limit::none;
      return true;
    }
    if (!column.within_limits && column.limit != Limit::line_does_not_move)
      name_limit(*tightest);
    return false;
  }

  static bool binds(const Demand &d) { return d.share >= 1 + 1e-6; }

  // Whether a new aim stops at its limit where the last run did, give or take what is left of it.
  bool has_settled() const
  {
    const double near = 1.2 * (1 - close_to_limit);
    return std::abs(column.setting.bow - base_setting.bow) <
               near * std::abs(base_setting.bow - rule.found.bow) + least_way &&
           std::abs(column.setting.twist - base_setting.twist) <
               near * std::abs(base_setting.twist - rule.found.twist) +
                   the_case.target.twist_tolerance;
  }

  // Reading predicted by the units for the setting at hand.
  Reading predicted() const
  {
    const Sensitivity &s = column.sensitivity;
    const double bow = column.setting.bow - base_setting.bow,
                 twist = column.setting.twist - base_setting.twist;
    Reading r = base_reading;
    r.bow += s.bow_by_bow * bow + s.bow_by_twist * twist;
    r.twist += s.twist_by_bow * bow + s.twist_by_twist * twist;
    return r;
  }

  // How far the last full run is from the target, in tolerances.
  double missed() const
  {
    const cases::Target &t = the_case.target;
    return std::max(std::abs(column.reached.bow - column.wanted.bow) / t.bow_tolerance,
                    std::abs(column.reached.twist - column.wanted.twist) / t.twist_tolerance) /
           input.coarseness;
  }

  void run_full()
  {
    input.stage("trial runs");
    const Reading expected = predicted();
    cold_share_run = rule.cold_share;
    column.history = run(found.progress, true);
    ++column.full_runs;
    column.reached = read_at_bench(target_step(phases, column.history).reading);
    column.prediction_error_bow = column.reached.bow - expected.bow;
    column.prediction_error_twist = column.reached.twist - expected.twist;
    note_pulls(column.history);
    base_setting = column.setting;
    base_reading = column.reached;
    column.demands = demands(column, the_case, phases, input.tables);
    column.on_target = missed() <= 1;
    const bool bow_is_right = std::abs(column.reached.bow - column.wanted.bow) <=
                              input.coarseness * the_case.target.bow_tolerance;
    if (!pulls_reached && !column.on_target && bow_is_right)
      column.limit = Limit::twist_out_of_reach;
  }

  const PlanInput &input;
  const cases::Case &the_case;
  const std::vector<cases::Phase> &phases;
  Workbench &workbench;
  const ThermalHistory &heat;
  const FoundNeck &found;
  PlanColumn column;
  PullRule rule;
  double cold_share_run = 1; // of the last run
  ClampSetting base_setting;
  Reading base_reading;
  ClampSetting full;    // what would reach the target
  double way_share = 1; // of the way to it from the neck at hand
  bool pulls_reached = true, slack_in_units = false;
};
} // namespace

Workbench::Workbench(const PlanInput &input, const ModelChoices &choices)
    : the_case(input.the_case),
      model(build_model(input.the_case, input.mesh, input.tables, choices)), means(model),
      bench(input.the_case, model, input.tables), lines(input.the_case, input.mesh, model),
      found_strings(make_string_pull(the_case, the_case.strings_found, model, input.tables,
                                     cases::line_of(the_case, "warp.strings"))),
      planned_strings(make_string_pull(the_case, the_case.strings, model, input.tables,
                                       cases::line_of(the_case, "strings.set"))),
      mechanics(model)
{}

ThermalHistory heat_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                       double coarseness)
{
  HeatOptions options;
  options.error *= coarseness;
  options.first_step *= coarseness;
  const std::vector<double> start(workbench.model.space.n_nodes,
                                  workbench.the_case.room.temperature);
  return simulate_heat(workbench.model, heat_source(workbench.model, workbench.the_case), phases,
                       start, options);
}

MoistureHistory moisture_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                            const ThermalHistory &heat)
{
  return simulate_moisture(workbench.model, workbench.the_case, phases, heat,
                           moisture_at_start(workbench.model, workbench.the_case));
}

unsigned phase_at_date(const std::vector<cases::Phase> &phases)
{
  if (phases.empty())
    throw std::invalid_argument("a schedule without phases has no date");
  auto last = unsigned(phases.size() - 1);
  while (last > 0 && phases[last].kind == cases::PhaseKind::play)
    --last;
  return last;
}

PlanColumn make_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                     const FoundNeck &found)
{
  PlanColumn column = Planner(input, workbench, heat, found).plan();
  column.counts = workbench.mechanics.counts();
  return column;
}

PlanColumn aim_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                    const FoundNeck &found)
{
  return Planner(input, workbench, heat, found).aimed();
}

PlanColumn try_setting(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                       const FoundNeck &found, double cold_share, bool with_units)
{
  if (!input.first_guess)
    throw std::logic_error("a setting to try is missing");
  PlanColumn column = Planner(input, workbench, heat, found).try_one(cold_share, with_units);
  column.counts = workbench.mechanics.counts();
  return column;
}
} // namespace overbend::solver
