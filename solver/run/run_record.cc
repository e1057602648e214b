// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/run/run_record.h"

#include "solver/ending/sudden_end.h"
#include "solver/history/simulate.h"
#include "solver/results/file_error.h"
#include "solver/results/text_file.h"

#include <filesystem>

namespace overbend::solver
{
void write_record_text(const std::string &folder, const Record &record)
{
  std::string lines;
  for (const auto &[name, value] : record_lines(record))
    lines += name + ": " + value + "\n";
  write_text_file((std::filesystem::path(folder) / "record.txt").string(),
                  lines + "case text:\n" + record.case_text);
}

void with_record_of_failure(const std::string &folder, const Record &record,
                            const std::function<double()> &seconds_gone,
                            const std::function<void()> &work)
{
  const auto leave = [&](const std::string &reason) {
    Record failed = record;
    failed.wall_time = seconds_gone();
    failed.exit_reason = reason;
    try {
      write_record_text(folder, failed);
    } catch (const FileError &) {
      // The error that stopped the run is already on its way and says more.
    }
  };
  // By value: the run goes on with its own while another thread writes this one.
  const AtSuddenEnd when_stopped([folder, record, seconds_gone](const std::string &reason) {
    Record stopped = record;
    stopped.wall_time = seconds_gone();
    stopped.exit_reason = reason;
    write_record_text(folder, stopped);
    return "the folder " + cases::printable(folder) +
           " holds what was written before, its record says why it stopped; run it again with "
           "--replace";
  });
  try {
    work();
  } catch (const NotConverged &error) {
    leave(std::string("not converged: ") + error.what());
    throw;
  } catch (const FileError &error) {
    leave(std::string("files: ") + error.what());
    throw;
  } catch (const std::exception &error) {
    leave(std::string("stopped: ") + error.what());
    throw;
  }
}
} // namespace overbend::solver
