// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results_reader.h"

#include "solver/file_error.h"
#include "solver/hdf5_file.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
void check_format(const hdf5::File &file, const std::string &path)
{
  const double number = file.read_double_attribute("/", "format number");
  if (file.read_text_attribute("/", "format") != "overbend results" || number != format_number)
    throw FileError(path, "has another format than number " + std::to_string(format_number),
                    "read it with the version of the program that wrote it");
}

StoredStep read_step(const hdf5::File &file, const std::string &group)
{
  StoredStep step;
  step.time = file.read_double_attribute(group, "time");
  step.phase = file.read_text_attribute(group, "phase");
  for (const StoredField &field : stored_fields())
    step.fields[field.name] = file.read_doubles(group + "/" + field.name);
  return step;
}

// Groups of steps are made before they are filled; the phase is the last to be written. A kill
// within a step may leave a group that cannot be opened.
bool is_complete(const hdf5::File &file, const std::string &group)
{
  if (!file.can_open(group))
    return false;
  const std::vector<std::string> attributes = file.attributes(group);
  return std::find(attributes.begin(), attributes.end(), "phase") != attributes.end();
}

// Stops at the first step that is not complete; one that is complete behind it means damage.
void read_steps(const hdf5::File &file, const std::string &path, std::vector<StoredStep> &steps)
{
  std::size_t seen = 0;
  for (const std::string &name : file.members("/steps")) {
    const std::string group = "/steps/" + name;
    ++seen;
    if (!is_complete(file, group))
      continue;
    if (steps.size() + 1 != seen)
      throw FileError(path, "the step before " + name + " is damaged", "use another copy");
    steps.push_back(read_step(file, group));
  }
}
} // namespace

StoredResults read_results(const std::string &path)
{
  const hdf5::File file = hdf5::File::open(path);
  check_format(file, path);
  StoredResults results;
  results.mesh.nodes = file.read_doubles("/mesh/nodes");
  results.mesh.cells = file.read_ints("/mesh/cells");
  results.mesh.piece = file.read_ints("/mesh/piece");
  read_steps(file, path, results.steps);
  for (const std::string &name : file.attributes("/record"))
    results.record[name] = file.read_text_attribute("/record", name);
  results.case_text = file.read_text("/record/case_text");
  return results;
}

std::map<std::string, std::vector<double>> read_readings(const std::string &path)
{
  const hdf5::File file = hdf5::File::open(path);
  check_format(file, path);
  std::map<std::string, std::vector<double>> readings;
  for (const std::string &name : file.members("/readings"))
    if (name != "phase" && name != "moment")
      readings[name] = file.read_doubles("/readings/" + name);
  return readings;
}
} // namespace overbend::solver
