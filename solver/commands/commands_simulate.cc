// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/commands.h"

#include "cases/text/printable.h"
#include "mesh/make_neck_mesh.h"
#include "solver/commands/run_watch.h"
#include "solver/report/free_warming.h"
#include "solver/report/plan_report.h"
#include "solver/results/text_file.h"
#include "solver/run/run_output.h"
#include "solver/run/run_record.h"
#include "solver/text/plan_text.h"
#include "solver/verdict/verdict.h"
#include "solver/words/shop_words.h"

#include <filesystem>
#include <iostream>

namespace overbend::solver
{
namespace
{
// A pull names what the bench is to read; the model's readings are without what is as built and
// what the frets add.
std::vector<cases::Phase> for_model(const cases::Case &c, const Reading &as_built)
{
  const Reading added = at_bench(c, Reading{}, as_built);
  std::vector<cases::Phase> phases = c.phases;
  for (cases::Phase &phase : phases)
    if (phase.pull.kind == cases::Pull::Kind::to_reading) {
      phase.pull.bow -= added.bow;
      phase.pull.twist -= added.twist;
    }
  return phases;
}

std::string peaks_text(const cases::Case &c, const Peaks &peaks)
{
  std::string text = "Share of strength used at most, at its temperature and for as long as it is "
                     "held (100 % breaks):\n";
  for (const auto &[place, peak] : peaks.use)
    text += "  " + std::string(name(place)) + ": " + fixed(100 * peak.value, 1) + " %, " +
            peak.mode + ", phase \"" + c.phases.at(peak.phase).name + "\"\n";
  return text;
}

class SimulateRun
{
public:
  explicit SimulateRun(const CommandOptions &command)
      : options(command), c(read_checked_case(command.case_file, materials::tables())),
        folder(command.folder.empty() ? default_folder(command.case_file, "run") : command.folder),
        watch(command)
  {}

  void run()
  {
    record = record_of(c, materials::tables());
    const FolderLock lock = claim_folder(folder, options.replace, record);
    with_record_of_failure(
        folder, record, [&] { return watch.seconds(); }, [&] { simulate_case(); });
  }

private:
  void simulate_case()
  {
    watch.stage("mesh", 0, 0.02);
    const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
    Workbench workbench(c, neck, materials::tables(), {});
    watch.stage("heat and moisture", 0.02, 0.1);
    const ThermalHistory heat = heat_of(workbench, c.phases);
    const MoistureHistory moisture = moisture_of(workbench, c.phases, heat);
    watch.stage("how the neck came to be bent", 0.1, 0.3);
    const FoundNeck found = find_start(workbench.neck(), workbench.found_strings, moisture.at(0));
    watch.stage("simulating", 0.3, 1);
    FieldOutput fields(folder, workbench, c.phases, heat, record, &moisture);
    Peaks peaks(workbench.model, materials::tables().limits);
    BenchRecorder readings(workbench, heat, &moisture);
    SimulationOptions simulation;
    simulation.bow_error = c.numerics.bow_error;
    simulation.moisture = &moisture;
    simulation.observe = [&](const StepRecord &step, const MechanicsState &state) {
      watch.step(c, step);
      peaks.watch(workbench.model, workbench.means, state, heat.at(step.time), step.time,
                  step.phase, moisture.at(step.time));
      fields.observe(step, state);
      readings.observe(step, state);
    };
    const Reading &as_built = found.diagnosis.as_built;
    const History history = simulate(workbench.neck(), for_model(c, as_built),
                                     workbench.planned_strings, heat, found.progress, simulation);
    watch.end_stage();

    const HeatReader reader(workbench, heat, &moisture);
    const std::string text = text_of(history, found.diagnosis, reader, peaks);
    record.wall_time = watch.seconds();
    record.exit_reason = "done";
    fields.finish(
        readings_table(c, history, readings.states, as_built, heat_at_steps(history, reader)),
        record);
    std::vector<double> across;
    for (int fret = 0; fret <= c.neck.frets; ++fret)
      across.push_back(workbench.lines.distance_across(fret));
    write_text_file((std::filesystem::path(folder) / "gaps.csv").string(),
                    to_csv(gaps_table(c, history, as_built, across), record));
    write(text, workbench.mechanics.counts());
  }

  std::string text_of(const History &history, const Diagnosis &diagnosis, const HeatReader &reader,
                      const Peaks &peaks) const
  {
    std::string text =
        history_text(c, history, diagnosis.as_built, [&](double time) { return reader.at(time); }) +
        peaks_text(c, peaks);
    if (const auto course = free_course(c, history, diagnosis, materials::LineSpeed::middle))
      text += folded(free_warming_text({*course}), "", "");
    for (const std::string &sentence : left_out_of_the_air(c))
      text += folded(sentence + "\n", "", "");
    return text;
  }

  void write(const std::string &text, const SolverCounts &counts)
  {
    write_text_file((std::filesystem::path(folder) / "readings.txt").string(), text);
    options.write_opener(folder);
    write_record_text(folder, record); // "done" stands beside everything else
    if (!options.quiet)
      std::cout << text;
    if (!c.board_glue.kind)
      std::cout << "The glue is not known: simulated with the middle line (white PVA).\n";
    std::cout << "Results in " << cases::printable(folder) << "\n";
    watch.print_timing(counts);
  }

  const CommandOptions &options;
  const cases::Case c;
  const std::string folder;
  RunWatch watch;
  Record record;
};
} // namespace

void simulate_command(const CommandOptions &options)
{
  SimulateRun(options).run();
}
} // namespace overbend::solver
