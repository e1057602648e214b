// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results_reader.h"

#include "solver/file_error.h"
#include "solver/hdf5_file.h"

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
} // namespace

StoredResults read_results(const std::string &path)
{
  const hdf5::File file = hdf5::File::open(path);
  check_format(file, path);
  StoredResults results;
  results.mesh.nodes = file.read_doubles("/mesh/nodes");
  results.mesh.cells = file.read_ints("/mesh/cells");
  results.mesh.piece = file.read_ints("/mesh/piece");
  for (const std::string &name : file.members("/steps")) {
    // The phase is written last: without it the run ended within this step.
    const std::string group = "/steps/" + name;
    bool complete = false;
    for (const std::string &attribute : file.attributes(group))
      complete = complete || attribute == "phase";
    if (complete)
      results.steps.push_back(read_step(file, group));
  }
  for (const std::string &name : file.attributes("/record"))
    results.record[name] = file.read_text_attribute("/record", name);
  results.case_text = file.read_text("/record/case_text");
  if (file.holds("/readings"))
    for (const std::string &name : file.members("/readings"))
      if (name != "phase" && name != "moment")
        results.readings[name] = file.read_doubles("/readings/" + name);
  return results;
}
} // namespace overbend::solver
