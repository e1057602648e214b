// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/plan_run.h"

#include "cases/text/error.h"
#include "solver/commands/run_watch.h"
#include "solver/job/recorded_plan.h"
#include "solver/json/plan_json.h"
#include "solver/report/plan_report.h"
#include "solver/results/text_file.h"
#include "solver/run/run_output.h"
#include "solver/run/run_record.h"
#include "solver/text/plan_text.h"
#include "solver/words/shop_words.h"

#include <filesystem>
#include <iostream>

// The accepted history, once, and all that is written and said of it.
namespace overbend::solver
{
// The accepted history, once, with all that is written of it.
void PlanRun::finish()
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
  report.columns.push_back(
      record_plan(job, tables, climates, [&](const StepRecord &step, const MechanicsState &state) {
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

void PlanRun::write_run(const Workbench &workbench, const RecordedClimates &climates,
                        FieldOutput &fields)
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
  write_text_file(
      path("gaps.csv"),
      to_csv(gaps_table(report.the_case, column.history, as_built, report.across_by_fret), at_end));
  is_recorded = true;
}

std::string PlanRun::path(const char *name) const
{
  return (std::filesystem::path(folder) / name).string();
}

void PlanRun::write(const std::string &exit_reason)
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

std::string PlanRun::where_to_look() const
{
  return capital(in_words(report.verdict.kind)) + ". In the folder " + cases::printable(folder) +
         ":\n" +
         (report.verdict.refused() ? "" : "  bench-card.html  to print and take to the bench\n") +
         "  report.html      why, with pictures and plots\n"
         "  plan.txt         every step and table (also printed by --full)\n" +
         (is_recorded ? "  results.xdmf     for ParaView, opened by open_in_paraview.py\n" : "");
}
} // namespace overbend::solver
