// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/commands.h"

#include "cases/error.h"
#include "cases/read_case.h"
#include "materials/strings.h"
#include "mesh/make_neck_mesh.h"
#include "solver/commands/run_watch.h"
#include "solver/report/plan_json.h"
#include "solver/report/plan_report.h"
#include "solver/report/plan_text.h"
#include "solver/results/text_file.h"
#include "solver/run/run_output.h"
#include "solver/run/run_record.h"

#include <algorithm>
#include <filesystem>
#include <iostream>

namespace overbend::solver
{
namespace
{
using materials::LineSpeed;

void check_that_it_can_be_planned(const cases::Case &c)
{
  const bool pulls = std::any_of(c.phases.begin(), c.phases.end(), [](const cases::Phase &phase) {
    return phase.pull.kind == cases::Pull::Kind::to_reading;
  });
  if (!pulls)
    throw cases::CaseError(c.file, cases::line_of(c, "phase[1]"),
                           "a plan needs a phase that pulls the cords to a reading",
                           "write pull = \"to reading\" in a clamp phase, or use `simulate`");
}

class PlanRun
{
public:
  explicit PlanRun(const CommandOptions &command)
      : options(command), tables(materials::tables()),
        c(read_checked_case(command.case_file, tables)),
        folder(command.folder.empty() ? default_folder(command.case_file, "plan") : command.folder),
        report(c), watch(command)
  {}

  void run()
  {
    check_that_it_can_be_planned(c);
    record = record_of(c, tables);
    claim_folder(folder, options.replace, record);
    with_record_of_failure(
        folder, record, [&] { return watch.seconds(); }, [&] { plan(); });
  }

private:
  void plan()
  {
    report.cord_per_turn =
        materials::take_up_per_turn(tables.tuner(c.tuners.kind), c.bench.cord_diameter);
    report.verdict = refuse_before(c, tables);
    if (report.verdict.kind == Verdict::do_not)
      return write("refused before any simulation");
    watch.stage("mesh", 0, 0.02);
    neck = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
    if (!strings_fit())
      return write("refused by what the strings lift");
    plan_columns();
    write("done");
  }

  PlanInput input() const
  {
    return {c, neck, tables, [](const std::string &) {}, {}};
  }

  // Lift of the strings, stiffness from the strung reading, and what they say; false: refused.
  bool strings_fit()
  {
    watch.stage("strings", 0.02, 0.04);
    const PlanInput plain = input();
    Workbench workbench(plain, {});
    const auto lift = [&](const StringPull &strings, cases::RodState rod) {
      return string_lift(workbench.model, workbench.bench, workbench.lines, strings,
                         workbench.mechanics, rod);
    };
    report.lifts = Lifts{lift(workbench.found_strings, rod_left_in(c)),
                         lift(workbench.planned_strings, rod_left_in(c)),
                         lift(workbench.found_strings, c.neck.rod.state),
                         lift(workbench.planned_strings, c.target.rod)};
    report.found_tension = workbench.found_strings.total;
    report.planned_tension = workbench.planned_strings.total;
    if (c.found.strung_bow)
      report.stiffness_factor = fit_stiffness(c, *report.lifts);
    report.verdict.join(judge_lift(c, *report.lifts, report.stiffness_factor));
    return report.verdict.kind != Verdict::do_not;
  }

  void plan_columns()
  {
    if (c.board_glue.kind) {
      Verdict after;
      plan_one(LineSpeed::middle, 0.04, 1, after);
      report.verdict.join(after);
      return;
    }
    const LineSpeed speeds[3] = {LineSpeed::slow, LineSpeed::middle, LineSpeed::fast};
    Verdict each[3];
    for (unsigned k = 0; k < 3; ++k)
      plan_one(speeds[k], 0.04 + 0.32 * k, 0.04 + 0.32 * (k + 1), each[k]);
    report.verdict.join(each[1]);
    // Only one line is there: what the other two say is a caution.
    for (const auto &[k, name] : {std::pair(0, "slow"), std::pair(2, "fast")})
      for (const std::string &reason : each[k].reasons)
        report.verdict.caution(std::string("If the line turns out ") + name + ": " + reason);
  }

  void plan_one(LineSpeed speed, double from, double to, Verdict &after)
  {
    PlanInput job = input();
    const double span = to - from;
    watch.stage("heat", from, from + 0.05 * span);
    Workbench workbench(job, {speed, report.stiffness_factor.value_or(1)});
    if (heat.all().empty())
      heat = heat_of(workbench, c.phases);
    if (moisture.all().empty())
      moisture = moisture_of(workbench, c.phases, heat);
    job.moisture = &moisture;
    watch.stage("start", from + 0.05 * span, from + 0.2 * span);
    const FoundNeck found =
        find_start(c, workbench.model, workbench.bench, workbench.lines, workbench.found_strings,
                   workbench.mechanics, moisture.at(0));
    const MechanicsState &start = found.progress.state;
    report.bench.push_back({BenchRecorder(workbench, heat, &moisture).at_start(start),
                            read(workbench.lines, start.displacement),
                            {}});
    std::unique_ptr<FieldOutput> fields;
    if (speed == LineSpeed::middle)
      fields = start_fields(workbench, start);
    CurveRecorder curves(workbench, heat);
    BenchRecorder readings(workbench, heat, &moisture);
    double done = 0.2; // the unit histories, then a smaller and smaller part of what is left
    job.stage = [&](const std::string &name) {
      const double next = done + 0.45 * (1 - done);
      watch.stage(name, from + done * span, from + next * span);
      done = next;
    };
    job.observe_final = [&](const StepRecord &step, const MechanicsState &state) {
      watch.step(c, step);
      readings.observe(step, state);
      if (!fields)
        return;
      fields->observe(step, state);
      curves.observe(step, state);
    };
    PlanColumn column = make_plan(job, workbench, heat, found);
    column.speed = speed;
    watch.end_stage();
    after = judge_after(column, workbench, heat, &moisture, c);
    report.bench.back().states = std::move(readings.states);
    if (fields) {
      report.curves = std::move(curves.points);
      finish(workbench, column, *fields);
    }
    add(counts, column.counts);
    report.columns.push_back(std::move(column));
  }

  // What is written of the middle line begins with the neck as found.
  std::unique_ptr<FieldOutput> start_fields(const Workbench &workbench, const MechanicsState &state)
  {
    report.across_by_fret.clear();
    for (int fret = 0; fret <= c.neck.frets; ++fret)
      report.across_by_fret.push_back(workbench.lines.distance_across(fret));
    auto fields = std::make_unique<FieldOutput>(folder, workbench, heat, record, &moisture);
    fields->start_from(state);
    return fields;
  }

  void finish(const Workbench &workbench, const PlanColumn &column, FieldOutput &fields)
  {
    const HeatReader reader(workbench, heat, &moisture);
    double time = 0;
    for (const cases::Phase &phase : c.phases) {
      report.heat.push_back(reader.at(time));
      time += phase.duration;
      report.heat.push_back(reader.just_before(time));
    }
    report.line = line_warmth(workbench, heat, &moisture);
    Record at_end = record;
    at_end.wall_time = watch.seconds();
    at_end.exit_reason = "done";
    const Reading &as_built = column.diagnosis.as_built;
    fields.finish(readings_table(c, column.history, report.bench.back().states, as_built,
                                 heat_at_steps(column.history, reader)),
                  at_end);
    write_text_file(path("gaps.csv"),
                    to_csv(gaps_table(c, column.history, as_built, report.across_by_fret), at_end));
    options.write_opener(folder);
  }

  static void add(SolverCounts &sum, const SolverCounts &n)
  {
    sum.steps += n.steps;
    sum.factorisations += n.factorisations;
    sum.iterations += n.iterations;
    sum.solves += n.solves;
    sum.seconds_factor += n.seconds_factor;
    sum.seconds_solve += n.seconds_solve;
    sum.seconds_law += n.seconds_law;
  }

  std::string path(const char *name) const
  {
    return (std::filesystem::path(folder) / name).string();
  }

  void write_record(const std::string &exit_reason)
  {
    watch.end_stage();
    record.wall_time = watch.seconds();
    record.exit_reason = exit_reason;
    write_record_text(folder, record);
  }

  void write(const std::string &exit_reason)
  {
    write_record(exit_reason);
    const std::string text = plan_text(report);
    write_text_file(path("plan.txt"), text);
    write_text_file(path("plan.json"), plan_json(report, record));
    options.write_pages(folder);
    if (options.quiet)
      std::cout << in_words(report.verdict.kind) << "\n";
    else
      std::cout << text << "\nWritten to the folder " << folder << ".\n";
    watch.print_timing(counts);
  }

  const CommandOptions &options;
  const materials::Tables &tables;
  const cases::Case c;
  const std::string folder;
  PlanReport report;
  RunWatch watch;
  Record record;
  mesh::NeckMesh neck;
  ThermalHistory heat;
  MoistureHistory moisture;
  SolverCounts counts;
};
} // namespace

void plan_command(const CommandOptions &options)
{
  PlanRun(options).run();
}
} // namespace overbend::solver
