// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/run/run_output.h"

#include "solver/results/file_error.h"
#include "solver/results/run_files.h"
#include "solver/run/run_record.h"
#include "solver/run/step_fields.h"

#include <filesystem>

namespace overbend::solver
{
namespace
{
namespace fs = std::filesystem;
constexpr double apart = 1; // s, between two states of one time
} // namespace

std::string default_folder(const std::string &case_file, const std::string &ending)
{
  return fs::path(case_file).stem().string() + "-" + ending;
}

FolderLock claim_folder(const std::string &folder, bool replace, const Record &record)
{
  std::error_code error;
  if (fs::exists(folder, error) && !fs::is_directory(folder, error))
    throw FileError(folder,
                    fs::is_regular_file(folder, error) ? "is a file, not a folder" : "is no folder",
                    "name another folder with --output");
  fs::create_directories(folder, error);
  if (error)
    throw FileError(folder, "cannot be made (" + error.message() + ")",
                    "check the rights of the folder it lies in, or name another with --output");
  FolderLock lock(folder);
  if (!fs::is_empty(folder, error)) {
    if (!replace)
      throw FileError(folder, "already holds something, perhaps an earlier run",
                      "name another folder with --output, or replace it with --replace");
    clear_run(folder);
  }
  write_record_text(folder, record);
  return lock;
}

FieldOutput::FieldOutput(std::string to_folder, const Workbench &bench,
                         const std::vector<cases::Phase> &of_history, const ThermalHistory &history,
                         Record run_record, const MoistureHistory *wet)
    : folder(std::move(to_folder)), workbench(bench), phases(of_history), heat(history),
      moisture(wet), record(std::move(run_record)), mesh(mesh_data(bench.model))
{}

void FieldOutput::start_from(const MechanicsState &state)
{
  start = step_fields(workbench.model, workbench.means, state, heat.at(0), 0, as_found,
                      moisture_at(moisture, 0));
}

void FieldOutput::observe(const StepRecord &step, const MechanicsState &state)
{
  double time = step.time;
  if (!writer || (step.phase == 0 && step.time <= 0)) {
    writer.reset(); // the file is closed before it is begun again
    writer = std::make_unique<ResultsWriter>(folder, mesh, record, true);
    if (start) {
      writer->write_step(*start);
      last_time = start->time;
    }
  }
  if (writer->steps() > 0 && time < last_time + apart)
    time = last_time + apart;
  const cases::Phase &phase = phases.at(step.phase);
  StepFields fields = step_fields(workbench.model, workbench.means, state, heat.at(step.time), time,
                                  phase.name, moisture_at(moisture, step.time));
  fields.on_bench = {phase.pass, phase.heater, phase.cords};
  writer->write_step(fields);
  last_time = time;
}

void FieldOutput::finish(const ReadingsTable &table, const Record &final_record)
{
  if (!writer)
    writer = std::make_unique<ResultsWriter>(folder, mesh, record, true);
  writer->write_readings(table);
  writer->finish(final_record);
}
} // namespace overbend::solver
