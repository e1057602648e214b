// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/unit/invented_plan.h"

#include "cases/declare/phases.h"
#include "cases/read/read_case.h"
#include "materials/tables.h"

#include <cmath>

namespace overbend::tests
{
namespace
{
using namespace solver;

// A board bent to a parabola, treble a little more than bass.
BoardShape bent(const cases::Case &c, double bow, double twist)
{
  BoardShape shape;
  const double b = cases::fret_position(c.neck.scale_length, c.found.rest_fret_b);
  for (int fret = 0; fret <= c.neck.frets; ++fret) {
    const double x = cases::fret_position(c.neck.scale_length, fret);
    const double z = 4 * bow * (x / b) * (x / b - 1);
    shape.bass.x.push_back(x);
    shape.bass.z.push_back(0.98 * z - 0.02 * twist * (1 - x / b));
    shape.centre.x.push_back(x);
    shape.centre.z.push_back(z);
    shape.treble.x.push_back(x);
    shape.treble.z.push_back(1.03 * z + 0.02 * twist * (1 - x / b));
  }
  return shape;
}

Reading reading_of(double bow, double twist)
{
  return {0.98 * bow, bow, 1.03 * bow, twist};
}

// A bent board with slip and shear in its glue lines and wood that is used a little.
BenchState invented_state(const cases::Case &c, double bow, double twist)
{
  BenchState state;
  state.shape = bent(c, bow, twist);
  state.line = {{"board", {0.117e-3, -0.086e-3, 0.213e6, -0.148e6, 0.327e6, 0.043}},
                {"scarf", {0.0042e-3, 0.0013e-3, 0.031e6, 0.027e6, 0.056e6, -0.017}}};
  state.use[Region::shaft] = {0.173, {0.113, 0, -0.012}, 0, 0, "compression along the grain"};
  state.use[Region::board_bond] = {0.058, {0.043, 0, 0}, 0, 0, "shear along the line"};
  return state;
}

// One phase of three steps from one bow to another.
void add_phase(const cases::Case &c, unsigned i, double from, double to, double start,
               PlanColumn &column, PlanReport &report)
{
  std::vector<CurvePoint> &curves = report.curves;
  const cases::Phase &phase = c.phases[i];
  for (const double share : {0., 0.4, 1.}) {
    StepRecord step;
    step.time = start + share * phase.duration;
    step.phase = i;
    step.reading = reading_of(from + share * (to - from), 1.7e-3 * (1 - share));
    if (phase.cords) {
      step.forces.cord = {91.3 - 20 * share, 138.6 - 30 * share};
      step.forces.cradle = 402.4 - 60 * share;
      step.take_up = {11.31e-3, 13.47e-3 - 0.3e-3 * i};
    }
    column.history.steps.push_back(step);
    CurvePoint point;
    point.time = step.time;
    point.phase = i;
    point.probe = 294.3 + (phase.heater ? 26.4 * share : 0);
    if (phase.heater)
      point.bar = 338.1;
    point.board_top = point.probe + 9.7;
    point.glue_line = point.probe + 4.1;
    point.mid_shaft = point.probe - 2.2;
    point.back = point.probe - 6.6;
    point.slip_nut_end = 0.217e-3 * share;
    point.slip_body_end = 0.186e-3 * share;
    curves.push_back(point);
    BenchState state = invented_state(c, from + share * (to - from), 1.7e-3 * (1 - share));
    state.time = step.time;
    state.phase = i;
    report.bench.back().states.push_back(state);
  }
  PhaseEnd end;
  end.phase = i;
  end.time = start + phase.duration;
  end.reading_at_start = reading_of(from, 1.7e-3);
  end.reading = reading_of(to, 0);
  end.shape_at_start = bent(c, from, 1.7e-3);
  end.shape = bent(c, to, 0);
  if (phase.cords) {
    end.take_up = column.history.steps.back().take_up;
    end.largest_cord = {91.3, 138.6};
  }
  column.history.phases.push_back(end);
}

PlanColumn invented_column(const cases::Case &c, PlanReport &report)
{
  PlanColumn column;
  report.curves.clear();
  report.bench.push_back({invented_state(c, 0.653e-3, 4.4e-3), reading_of(0.653e-3, 4.4e-3), {}});
  column.on_target = true;
  column.full_runs = 1;
  column.setting = {-1.324e-3, 1.7e-3};
  column.sensitivity.bow_by_bow = 0.352;
  column.sensitivity.twist_by_twist = 0.738;
  Diagnosis &d = column.diagnosis;
  d.found = reading_of(0.653e-3, 4.4e-3);
  d.ceiling = 0.487e-3;
  d.slip_bow = 0.522e-3;
  d.wood_bow = 0.131e-3;
  d.bonded_share = 0.383;
  d.as_built = {0, 0.011e-3, 0.002e-3, 0.0003};
  d.remarks = {"A remark <with> signs & units at 48 degC (118 degF)."};
  column.reached = column.wanted = reading_of(0.203e-3, 0.0002);
  column.peaks.use[Region::headstock_root] = {0.383, {}, 1500, 1, "compression along the grain"};
  column.peaks.hottest_glue = 332.4;
  column.peaks.hottest_board_top = 336.2;
  double time = 0, bow = -0.011e-3;
  for (unsigned i = 0; i < c.phases.size(); ++i) {
    const bool clamped = c.phases[i].cords, strings = c.phases[i].strings;
    if (c.phases[i].pull.kind == cases::Pull::Kind::to_reading)
      bow = c.phases[i].pull.decides ? -1.313e-3 : -0.011e-3;
    const double from = clamped ? bow : strings ? 0.127e-3 : -0.187e-3;
    const double to = clamped ? bow - 0.083e-3 : strings ? 0.193e-3 : -0.122e-3;
    add_phase(c, i, from, to, time, column, report);
    time += c.phases[i].duration;
  }
  return column;
}

// A slow line 0.15 mm further forward than the middle one, a fast one 0.1 mm further back; by
// `times` that.
BySpeed by_speed(double bow, double times)
{
  return {reading_of(bow + times * 0.15e-3, 0.0011), reading_of(bow, 0.0002),
          reading_of(bow - times * 0.1e-3, -0.0004)};
}

HeatChoice invented_heat(const cases::Case &c)
{
  HeatChoice heat;
  heat.set_point = 338.1;
  heat.overshoot = 3;
  heat.decided_by = HeatStop::line;
  heat.wrap = WrapReason::keeps_the_line_even;
  heat.limits = heat_limits(c, materials::tables());
  heat.at_set_point = {329.4, 331.7, 334.2, 338.1, 302.6, 0};
  heat.with_overshoot = {331.9, 334.3, 336.9, 341.1, 303.2, 0};
  heat.kept = 0.417;
  heat.kept_with_a_degree = 0.436;
  heat.kept_with_an_hour = 0.429;
  return heat;
}

// A probe at the edge that shows 47.4 degC beside a middle of 56.1.
LineHeat invented_line_heat()
{
  LineHeat line;
  line.air = 294.3;
  line.probe = 320.55;
  line.middle = 329.25;
  line.edge = 320.65;
  line.hottest = 330.95;
  line.hottest_x = 0.183;
  line.under_iron = 330.75;
  return line;
}

// A line halfway to fast and a fast one, let up alike.
SecondReading invented_second_reading()
{
  SecondReading second;
  second.slow.bow = -1.913e-3;
  second.middle.bow = -1.947e-3;
  LetUp one;
  one.place = 0.5;
  one.seen.bow = -2.236e-3;
  one.to = {-0.557e-3, -0.004};
  one.left.bow = -0.708e-3;
  one.strung.bow = 0.164e-3;
  second.faster = {one, one};
  second.faster.back().place = 1;
  second.faster.back().left.bow = -0.953e-3;
  second.faster.back().strung.bow = 0.243e-3;
  return second;
}

Job invented_job(const cases::Case &c, const PlanColumn &column)
{
  Job job;
  job.planned = c;
  job.heat = invented_heat(c);
  job.diagnosis = column.diagnosis;
  job.wanted = column.wanted;
  job.ends = true;
  const int passes = c.phases.back().pass;
  for (int k = 1; k <= passes; ++k) {
    PassPlan pass;
    pass.overbend = {column.setting.bow - 0.2e-3 * (k - 1), column.setting.twist};
    pass.cold = {-0.011e-3, -0.0003};
    pass.slack = {1.207e-3, 0.006};
    pass.sensitivity = column.sensitivity;
    const double short_of = 0.31e-3 * (passes - k);
    pass.released = by_speed(-0.122e-3 + short_of, 1);
    pass.strung = by_speed(0.193e-3 + short_of, 2);
    if (k == 1 && cases::second_reading(c.phases))
      pass.second = invented_second_reading();
    job.passes.push_back(pass);
  }
  return job;
}
} // namespace

PlanReport invented_report(const cases::Case &c, Verdict::Kind kind, bool simulated)
{
  PlanReport report(c);
  report.verdict.kind = kind;
  if (report.verdict.refused()) {
    report.verdict.reasons = {"A reason, at 66 degC (151 degF)."};
    report.verdict.alternatives = {"something else"};
  }
  report.verdict.cautions = {"A caution about 12 % of something."};
  report.cord_per_turn = 1.571e-3;
  report.lifts = Lifts{0.312e-3, 0.297e-3, 0.312e-3};
  report.planned_tension = 461.4;
  if (!simulated)
    return report;
  report.columns.push_back(invented_column(c, report));
  report.job = invented_job(c, report.columns.back());
  report.line_heat = invented_line_heat();
  for (std::size_t i = 0; i < 2 * c.phases.size(); ++i) {
    HeatReading warm;
    warm.probe = c.phases[i / 2].heater ? 320.7 : 294.3;
    report.heat.push_back(warm);
  }
  for (int fret = 0; fret <= c.neck.frets; ++fret)
    report.across_by_fret.push_back(0.041 + 0.0005 * fret);
  return report;
}

std::string invented_plan(const cases::Case &c, Verdict::Kind kind, bool simulated)
{
  Record record;
  record.version = "1.2.3";
  record.case_name = "invented.toml";
  record.case_text = "bar = \"65 degC\" # <kept> as it is & verbatim\n";
  return plan_json(invented_report(c, kind, simulated), record);
}

cases::Case two_passes()
{
  cases::Case c = cases::preset_case("electric");
  c.board_glue.kind = "white PVA";
  c.found.twist = 0.0044;
  c.phases = cases::scheduled_phases(c, 2);
  return c;
}
} // namespace overbend::tests
