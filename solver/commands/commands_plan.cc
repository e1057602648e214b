// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/commands.h"

#include "cases/case/first_pass.h"
#include "cases/read/read_case.h"
#include "cases/read/set_up_open.h"
#include "cases/text/error.h"
#include "materials/strings.h"
#include "mesh/make_neck_mesh.h"
#include "solver/commands/run_watch.h"
#include "solver/job/recorded_plan.h"
#include "solver/job/set_up_changes.h"
#include "solver/json/plan_json.h"
#include "solver/report/plan_report.h"
#include "solver/results/text_file.h"
#include "solver/run/run_output.h"
#include "solver/run/run_record.h"
#include "solver/text/plan_text.h"
#include "solver/verdict/stiffness_told.h"
#include "solver/verdict/verdict_water.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <filesystem>
#include <iostream>

namespace overbend::solver
{
namespace
{
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
    const FolderLock lock = claim_folder(folder, options.replace, record);
    with_record_of_failure(
        folder, record, [&] { return watch.seconds(); }, [&] { plan(); });
  }

private:
  void plan()
  {
    report.cord_per_turn =
        materials::take_up_per_turn(tables.tuner(c.tuners.kind), c.bench.cord_diameter);
    report.verdict = refuse_before(cases::as_it_stands(c), tables);
    const cases::Case opened = cases::with_set_up_open(c);
    const bool fixed = cases::fixes_set_up(c);
    // What the case asks for of its set-up may be what stops it: then the plan chooses instead.
    const Verdict asked = report.verdict;
    if (asked.refused() && fixed)
      report.verdict = refuse_before(cases::as_it_stands(opened), tables);
    if (report.verdict.refused())
      return write("refused before any simulation");
    watch.stage("mesh", 0, 0.02);
    neck = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
    if (!strings_fit())
      return write("refused by what strings and water tell");
    if (asked.refused())
      return plan_changed(opened, asked);
    const Verdict before = report.verdict;
    plan_case(c);
    if (report.verdict.refused() && fixed) {
      const Verdict as_asked = report.verdict;
      report.verdict = before;
      plan_changed(opened, as_asked);
      return;
    }
    finish();
  }

  // With a set-up of the plan's choice instead of the one asked for; back to what was asked where
  // that does not help either.
  void plan_changed(const cases::Case &opened, const Verdict &asked)
  {
    plan_case(opened);
    if (!report.verdict.refused())
      report.verdict.change(changes_in_words(c, report.the_case), asked.reasons);
    finish();
  }

  PlanInput input() const
  {
    return {c, neck, tables, [](const std::string &) {}, {}};
  }

  // Lift of the strings, stiffness from the strung reading, the wood's water, and what they say;
  // false: refused.
  bool strings_fit()
  {
    watch.stage("strings", 0.02, 0.04);
    Workbench workbench(c, neck, tables, {});
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
    if (tells_stiffness(c))
      report.stiffness_factor = fit_stiffness(c, *report.lifts);
    report.verdict.join(judge_lift(cases::as_it_stands(c), *report.lifts, report.stiffness_factor));
    report.verdict.join(judge_water(
        c, mean_moisture(workbench.model, moisture_at_start(workbench.model, c).moisture)));
    return !report.verdict.refused();
  }

  void plan_case(const cases::Case &to_plan)
  {
    JobInput job{to_plan,
                 neck,
                 tables,
                 report.stiffness_factor,
                 report.lifts->planned,
                 report.planned_tension,
                 {}};
    double done = 0.04; // each stage takes a smaller and smaller part of what is left
    job.stage = [&](const std::string &name) {
      const double next = done + 0.08 * (0.8 - done);
      watch.stage(name, done, next);
      done = next;
    };
    report.job = plan_job(job);
    report.the_case = report.job->planned;
  }

  // The accepted history, once, with all that is written of it.
  void finish()
  {
    const Job &job = *report.job;
    watch.stage("the whole job", 0.8, 0.9);
    const RecordedClimates climates = climates_of(job);
    const Workbench &workbench = job.line->bench();
    const MechanicsState &start = job.line->start().progress.state;
    report.bench.push_back(
        {BenchRecorder(workbench, climates.heat, &climates.moisture).at_start(start),
         read(workbench.lines, start.displacement),
         {}});
    report.across_by_fret.clear();
    for (int fret = 0; fret <= c.neck.frets; ++fret)
      report.across_by_fret.push_back(workbench.lines.distance_across(fret));
    FieldOutput fields(folder, workbench, report.the_case.phases, climates.heat, record,
                       &climates.moisture);
    fields.start_from(start);
    CurveRecorder curves(workbench, climates.heat);
    BenchRecorder readings(workbench, climates.heat, &climates.moisture);
    report.columns.push_back(record_plan(job, tables, climates,
                                         [&](const StepRecord &step, const MechanicsState &state) {
                                           watch.step(report.the_case, step);
                                           readings.observe(step, state);
                                           fields.observe(step, state);
                                           curves.observe(step, state);
                                         }));
    watch.end_stage();
    report.bench.back().states = std::move(readings.states);
    report.curves = std::move(curves.points);
    report.verdict.join(
        judge_after(job, report.main_column(), workbench, climates.heat, &climates.moisture));
    write_run(workbench, climates, fields);
    counts = report.main_column().counts;
    write("done");
  }

  void write_run(const Workbench &workbench, const RecordedClimates &climates, FieldOutput &fields)
  {
    const HeatReader reader(workbench, climates.heat, &climates.moisture);
    double time = 0;
    for (const cases::Phase &phase : report.the_case.phases) {
      report.heat.push_back(reader.at(time));
      time += phase.duration;
      report.heat.push_back(reader.just_before(time));
    }
    report.line = line_warmth(workbench, climates.heat, &climates.moisture);
    if (const auto end = end_of_heat(report.the_case))
      report.line_heat = line_heat(workbench.model, report.the_case, climates.heat, *end);
    Record at_end = record;
    at_end.wall_time = watch.seconds();
    at_end.exit_reason = "done";
    const PlanColumn &column = report.main_column();
    const Reading &as_built = column.diagnosis.as_built;
    fields.finish(readings_table(report.the_case, column.history, report.bench.back().states,
                                 as_built, heat_at_steps(column.history, reader)),
                  at_end);
    write_text_file(path("gaps.csv"), to_csv(gaps_table(report.the_case, column.history, as_built,
                                                        report.across_by_fret),
                                             at_end));
    is_recorded = true;
  }

  std::string path(const char *name) const
  {
    return (std::filesystem::path(folder) / name).string();
  }

  void write(const std::string &exit_reason)
  {
    watch.end_stage();
    record.wall_time = watch.seconds();
    record.exit_reason = exit_reason;
    const std::string text = plan_text(report);
    write_text_file(path("plan.txt"), text);
    write_text_file(path("plan.json"), plan_json(report, record));
    // First the answer, then what takes long to draw.
    if (options.quiet)
      std::cout << in_words(report.verdict.kind) << std::endl;
    else
      std::cout << (options.full ? text : plan_in_short(report)) << std::endl;
    watch.stage("drawing pictures and pages", 0.9, 1);
    if (is_recorded)
      options.write_opener(folder);
    options.write_pages(folder);
    write_record_text(folder, record); // "done" stands beside everything else
    watch.end_stage();
    if (!options.quiet)
      std::cout << where_to_look();
    watch.print_timing(counts);
  }

  std::string where_to_look() const
  {
    return capital(in_words(report.verdict.kind)) + ". In the folder " + cases::printable(folder) +
           ":\n" +
           (report.verdict.refused() ? "" : "  bench-card.html  to print and take to the bench\n") +
           "  report.html      why, with pictures and plots\n"
           "  plan.txt         every step and table (also printed by --full)\n" +
           (is_recorded ? "  results.xdmf     for ParaView, opened by open_in_paraview.py\n" : "");
  }

  const CommandOptions &options;
  const materials::Tables &tables;
  const cases::Case c;
  const std::string folder;
  PlanReport report;
  RunWatch watch;
  Record record;
  mesh::NeckMesh neck;
  SolverCounts counts;
  bool is_recorded = false; // fields of a history were written
};
} // namespace

void plan_command(const CommandOptions &options)
{
  PlanRun(options).run();
}
} // namespace overbend::solver
