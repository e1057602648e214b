// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/plan.h"
#include "solver/results/folder_lock.h"
#include "solver/results/readings_table.h"
#include "solver/results/record.h"
#include "solver/results/results.h"

#include <memory>
#include <optional>
#include <string>

namespace overbend::solver
{
// Name of the folder of a run where the user stands: that of the case without its ending, and
// "-plan" or "-run".
std::string default_folder(const std::string &case_file, const std::string &ending);

// Makes the folder, or sees that it may be written to, before any long work, and keeps other runs
// out of it as long as what it returns lives. One that holds something is refused (FileError, exit
// 4) unless `replace`; then the files of the earlier run are removed, and one that holds anything
// else is refused with its name (solver/results/run_files.h). The record is written at once, so
// that a run that is killed leaves "did not reach its end".
[[nodiscard]] FolderLock claim_folder(const std::string &folder, bool replace,
                                      const Record &record);

// Writes the fields of a run as it goes. A plan makes several full runs and only the last one
// counts: when a step begins again at time 0, the file is begun again.
//
// Two states of one time (before and after something is done at the bench) cannot both be shown by
// ParaView: the second is written a second later.
class FieldOutput
{
public:
  // phases: of the history that is written; they must outlive it.
  FieldOutput(std::string folder, const Workbench &workbench,
              const std::vector<cases::Phase> &phases, const ThermalHistory &heat, Record record,
              const MoistureHistory *moisture = nullptr);
  // The neck before the first phase: written at time 0 whenever the file is begun.
  void start_from(const MechanicsState &state);
  void observe(const StepRecord &step, const MechanicsState &state);
  // Writes the table of readings (results.h5 and readings.csv) and closes the file.
  void finish(const ReadingsTable &table, const Record &record);
  std::size_t steps() const { return writer ? writer->steps() : 0; }

private:
  std::string folder;
  const Workbench &workbench;
  const std::vector<cases::Phase> &phases;
  const ThermalHistory &heat;
  const MoistureHistory *moisture;
  Record record;
  MeshData mesh;
  std::unique_ptr<ResultsWriter> writer;
  std::optional<StepFields> start;
  double last_time = 0;
};
} // namespace overbend::solver
