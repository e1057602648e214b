// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/plan.h"

#include "cases/read_case.h"
#include "solver/plan/first_guess.h"
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

bool is_bound(Limit limit)
{
  return limit == Limit::cord_pull || limit == Limit::tuner_pull || limit == Limit::strength ||
         limit == Limit::overbend;
}

std::vector<cases::Phase> with_setting(std::vector<cases::Phase> phases,
                                       const ClampSetting &setting)
{
  bool any = false;
  for (cases::Phase &phase : phases)
    if (phase.pull.kind == cases::Pull::Kind::to_reading) {
      phase.pull.bow = setting.bow;
      phase.pull.twist = setting.twist;
      any = true;
    }
  if (!any)
    throw std::logic_error("a plan needs a phase that pulls to a reading");
  return phases;
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
      : input(input_), the_case(input_.the_case), workbench(bench_), heat(heat_), found(found_)
  {
    column.diagnosis = found.diagnosis;
    column.wanted.bow = the_case.target.relief;
    column.wanted.twist = the_case.target.twist;
  }

  PlanColumn plan()
  {
    guess();
    run_with_units();
    aim();
    for (bool renewed = false;;) {
      run_full();
      const Demand tightest = demands(column, the_case, input.tables).front();
      column.within_limits = tightest.share < 1 + 1e-6;
      if (column.within_limits && column.on_target) {
        column.limit = Limit::none;
        break;
      }
      if (!column.within_limits && column.limit != Limit::line_does_not_move)
        name_limit(tightest);
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
    return std::move(column);
  }

private:
  SlippingBeam slipping_beam(double lift) const
  {
    const cases::NeckShape &neck = the_case.neck;
    const double span = cases::fret_position(neck.scale_length, the_case.found.rest_fret_b) -
                        cases::fret_position(neck.scale_length, the_case.found.rest_fret_a);
    SlippingBeam beam;
    beam.rho = found.diagnosis.bonded_share;
    // Strings some 13 mm over the neutral axis bend the neck evenly (trade reference 3.4).
    beam.EI = workbench.planned_strings.total * 13e-3 * span * span / 8 / lift;
    // Half a D-shaped shaft's depth lies above its centroid, or nearly.
    beam.r = (neck.board_thickness + 0.85 * (neck.depth_at_12 - neck.board_thickness)) / 2;
    beam.width = (neck.nut_width + neck.width_at_12) / 2;
    beam.length = input.mesh.board_length;
    // Glued to the cold body, the line can slide at one end only.
    if (neck.tongue_glued && neck.heel.kind == cases::HeelKind::heel)
      beam.length *= 2;
    beam.glue_thickness = the_case.board_glue.thickness;
    return beam;
  }

  void guess()
  {
    const Diagnosis &d = found.diagnosis;
    const double lift =
        string_lift(workbench.model, workbench.bench, workbench.lines, workbench.planned_strings,
                    workbench.mechanics, rod_left_in(the_case));
    const double modulus = relaxed_modulus(workbench.model, the_case.phases, heat);
    const double share = std::max(least_share, share_of_slip(slipping_beam(lift), modulus));
    const Reading added = read_at_bench({});
    const double slack_target = column.wanted.bow - added.bow - lift;
    const double limit = input.tables.limits.most_overbend(the_case.neck.scale_length);
    column.setting.bow = std::clamp(
        clamp_for(slack_target, d.found.bow, d.wood_share(), d.bonded_share, share), -limit, limit);
    const double twist_sum = d.slip_twist + d.wood_twist;
    const double q = std::abs(twist_sum) > 0 ? d.wood_twist / twist_sum : 0;
    // Twist relaxes at a stiffer line than bending: complete slip is near.
    column.setting.twist =
        clamp_for(column.wanted.twist - added.twist, d.found.twist, q, d.bonded_twist_share, 1);
    if (input.first_guess)
      column.setting = *input.first_guess;
    column.first_guess = column.setting;
  }

  History run(const Progress &start, bool final_run)
  {
    column.peaks = Peaks(workbench.model, input.tables.limits);
    SimulationOptions options;
    options.bow_error = the_case.numerics.bow_error;
    options.moisture = input.moisture;
    options.observe = [&](const StepRecord &step, const MechanicsState &state) {
      watch(step, state);
      if (final_run && input.observe_final)
        input.observe_final(step, state);
    };
    return simulate(the_case, with_setting(the_case.phases, column.setting), workbench.model,
                    workbench.bench, workbench.lines, workbench.planned_strings, heat, start,
                    workbench.mechanics, options);
  }

  void watch(const StepRecord &step, const MechanicsState &state)
  {
    const std::vector<double> temperature = heat.at(step.time);
    const std::vector<double> moisture = moisture_at(input.moisture, step.time);
    column.peaks.watch(workbench.model, workbench.means, state, temperature, step.time, step.phase,
                       moisture);
    if (step.forces.cradle_pressure > 0) {
      const Peak pad = pad_use(workbench.model, the_case, step, temperature, moisture);
      // No strength across the grain, no share: the plan names what is missing.
      if (pad.value > 0)
        column.peaks.note(Region::under_the_cradle, pad);
    }
  }

  Reading read_at_bench(const Reading &of_model) const
  {
    return at_bench(the_case, of_model, found.diagnosis.as_built);
  }

  void run_with_units()
  {
    input.stage("unit histories");
    Progress start = found.progress;
    for (unsigned k = 0; k < 2; ++k) {
      Unit unit;
      (k == 0 ? unit.bow : unit.twist) = k == 0 ? unit_bow : unit_twist;
      unit.state = unstressed(workbench.model);
      start.units.push_back(unit);
    }
    const History history = run(start, false);
    ++column.unit_runs;
    const StepRecord &last = target_step(the_case.phases, history);
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
  }

  void note_pulls(const History &history)
  {
    pulls_reached = std::all_of(history.phases.begin(), history.phases.end(),
                                [](const PhaseEnd &p) { return p.pull_reached; });
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

  // Before a run: how far along the line from the found neck to the setting its limits let it go,
  // by what the last run asked of bench and neck.
  void look_ahead()
  {
    full = column.setting;
    way_share = 1;
    const double way = full.bow - slack().bow, last_way = base_setting.bow - slack().bow;
    const Reading &as_built = column.diagnosis.as_built;
    const double scale = the_case.neck.scale_length;
    const double over = overbend_share(full, as_built, scale, input.tables.limits);
    if (over > 1) {
      const double bow = full.bow + as_built.bow;
      way_share = 1 - (bow - bow / over) / way;
      column.limit = Limit::overbend;
    }
    // Forces grow with the way only if the twist keeps its part of it.
    const double twist_there = slack().twist + last_way / way * (full.twist - slack().twist);
    const bool same_line =
        std::abs(base_setting.twist - twist_there) < near_the_line * std::abs(last_way / way);
    for (const Demand &d : demands(column, the_case, input.tables)) {
      if (!same_line)
        break;
      const double expected = d.share * std::abs(way_share * way / last_way);
      if (d.limit == Limit::overbend || !(expected > 1))
        continue;
      way_share *= aimed_at_limit / expected;
      name_limit(d);
    }
    go_along();
  }

  void name_limit(const Demand &demand)
  {
    column.limit = demand.limit;
    column.limit_place = demand.place;
  }

  // Whether a new aim stops at its limit where the last run did, give or take what is left of it.
  bool has_settled() const
  {
    const ClampSetting from = slack();
    const double near = 1.2 * (1 - close_to_limit);
    return std::abs(column.setting.bow - base_setting.bow) <
               near * std::abs(base_setting.bow - from.bow) &&
           std::abs(column.setting.twist - base_setting.twist) <
               near * std::abs(base_setting.twist - from.twist) + the_case.target.twist_tolerance;
  }

  void go_along()
  {
    const ClampSetting from = slack();
    column.setting = {from.bow + way_share * (full.bow - from.bow),
                      from.twist + way_share * (full.twist - from.twist)};
  }

  // The setting at which the clamp does nothing: the neck as found.
  ClampSetting slack() const
  {
    const Diagnosis &d = found.diagnosis;
    return {d.found.bow - d.as_built.bow, d.found.twist - d.as_built.twist};
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
    return std::max(
        std::abs(column.reached.bow - column.wanted.bow) / the_case.target.bow_tolerance,
        std::abs(column.reached.twist - column.wanted.twist) / the_case.target.twist_tolerance);
  }

  void run_full()
  {
    input.stage("full run " + std::to_string(column.full_runs + 1));
    const Reading expected = predicted();
    column.history = run(found.progress, true);
    ++column.full_runs;
    column.reached = read_at_bench(target_step(the_case.phases, column.history).reading);
    column.prediction_error_bow = column.reached.bow - expected.bow;
    column.prediction_error_twist = column.reached.twist - expected.twist;
    note_pulls(column.history);
    base_setting = column.setting;
    base_reading = column.reached;
    column.on_target = missed() <= 1;
    if (!pulls_reached && !column.on_target &&
        std::abs(column.reached.bow - column.wanted.bow) <= the_case.target.bow_tolerance)
      column.limit = Limit::twist_out_of_reach;
  }

  const PlanInput &input;
  const cases::Case &the_case;
  Workbench &workbench;
  const ThermalHistory &heat;
  const FoundNeck &found;
  PlanColumn column;
  ClampSetting base_setting;
  Reading base_reading;
  ClampSetting full;    // what would reach the target
  double way_share = 1; // of the way to it from the neck as found
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

ThermalHistory heat_of(const Workbench &workbench, const std::vector<cases::Phase> &phases)
{
  const std::vector<double> start(workbench.model.space.n_nodes,
                                  workbench.the_case.room.temperature);
  return simulate_heat(workbench.model, workbench.the_case.heater, phases, start);
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
} // namespace overbend::solver
