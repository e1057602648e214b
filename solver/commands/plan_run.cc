// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/plan_run.h"

#include "cases/case/first_pass.h"
#include "cases/read/set_up_open.h"
#include "cases/text/error.h"
#include "materials/strings.h"
#include "mesh/make_neck_mesh.h"
#include "solver/commands/run_watch.h"
#include "solver/job/recorded_plan.h"
#include "solver/job/set_up_changes.h"
#include "solver/report/plan_report.h"
#include "solver/run/run_output.h"
#include "solver/run/run_record.h"
#include "solver/verdict/stiffness_told.h"
#include "solver/verdict/verdict_water.h"
#include "solver/words/shop_words.h"

#include <algorithm>

// The straight line of a plan: refuse early, mesh, strings, job.
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
} // namespace

PlanRun::PlanRun(const CommandOptions &command)
    : options(command), tables(materials::tables()),
      c(read_checked_case(command.case_file, tables)),
      folder(command.folder.empty() ? default_folder(command.case_file, "plan") : command.folder),
      report(c), watch(command)
{}

void PlanRun::run()
{
  check_that_it_can_be_planned(c);
  record = record_of(c, tables);
  const FolderLock lock = claim_folder(folder, options.replace, record);
  with_record_of_failure(
      folder, record, [&] { return watch.seconds(); }, [&] { plan(); });
}

void PlanRun::plan()
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
void PlanRun::plan_changed(const cases::Case &opened, const Verdict &asked)
{
  plan_case(opened);
  if (!report.verdict.refused())
    report.verdict.change(changes_in_words(c, report.the_case), asked.reasons);
  finish();
}

// Lift of the strings, stiffness from the strung reading, the wood's water, and what they say;
// false: refused.
bool PlanRun::strings_fit()
{
  watch.stage("strings", 0.02, 0.04);
  Workbench workbench(c, neck, tables, {});
  const auto lift = [&](const StringPull &strings, cases::RodState rod) {
    return string_lift(workbench.neck(), strings, rod);
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

void PlanRun::plan_case(const cases::Case &to_plan)
{
  JobInput job{
      to_plan, neck, tables, report.stiffness_factor, report.lifts->planned, report.planned_tension,
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
} // namespace overbend::solver
