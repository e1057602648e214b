// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/results_reader.h"

#include "solver/results/file_error.h"
#include "solver/results/hdf5_file.h"

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

// Groups of steps are made before they are filled; the phase is the last to be written. A kill
// within a step may leave a group that cannot be opened.
bool is_complete(const hdf5::File &file, const std::string &group)
{
  if (!file.can_open(group))
    return false;
  const std::vector<std::string> attributes = file.attributes(group);
  return std::find(attributes.begin(), attributes.end(), "phase") != attributes.end();
}

OnBench read_bench(const hdf5::File &file, const std::string &group)
{
  return {int(file.read_double_attribute(group, "pass")),
          file.read_double_attribute(group, "heated") != 0,
          file.read_double_attribute(group, "clamped") != 0};
}

MeshData read_mesh(const hdf5::File &file)
{
  MeshData mesh;
  mesh.nodes = file.read_doubles("/mesh/nodes");
  mesh.cells = file.read_ints("/mesh/cells");
  mesh.piece = file.read_ints("/mesh/piece");
  for (const std::string &name : file.members("/glue")) {
    if (name == "nodes")
      mesh.glue.nodes = file.read_doubles("/glue/nodes");
    else
      mesh.glue.lines.push_back({name, file.read_ints("/glue/" + name)});
  }
  return mesh;
}
} // namespace

struct ResultsFile::State
{
  struct Step
  {
    std::string group, phase;
    double time;
    OnBench on_bench;
  };
  hdf5::File file;
  MeshData mesh;
  std::vector<Step> steps;

  // Stops at the first step that is not complete; one that is complete behind it means damage.
  void find_steps(const std::string &path)
  {
    std::size_t seen = 0;
    for (const std::string &name : file.members("/steps")) {
      const std::string group = "/steps/" + name;
      ++seen;
      if (!is_complete(file, group))
        continue;
      if (steps.size() + 1 != seen)
        throw FileError(path, "the step before " + name + " is damaged", "use another copy");
      steps.push_back({group, file.read_text_attribute(group, "phase"),
                       file.read_double_attribute(group, "time"), read_bench(file, group)});
    }
  }
};

ResultsFile::ResultsFile(const std::string &path) : state(new State{hdf5::File::open(path), {}, {}})
{
  check_format(state->file, path);
  state->mesh = read_mesh(state->file);
  state->find_steps(path);
}

ResultsFile::~ResultsFile() = default;

const MeshData &ResultsFile::mesh() const
{
  return state->mesh;
}

std::size_t ResultsFile::n_steps() const
{
  return state->steps.size();
}

double ResultsFile::time(std::size_t step) const
{
  return state->steps.at(step).time;
}

const std::string &ResultsFile::phase(std::size_t step) const
{
  return state->steps.at(step).phase;
}

const OnBench &ResultsFile::on_bench(std::size_t step) const
{
  return state->steps.at(step).on_bench;
}

bool ResultsFile::has_field(std::size_t step, const std::string &name) const
{
  return state->file.holds(state->steps.at(step).group + "/" + name);
}

std::vector<double> ResultsFile::field(std::size_t step, const std::string &name) const
{
  return state->file.read_doubles(state->steps.at(step).group + "/" + name);
}

std::map<std::string, std::string> ResultsFile::record() const
{
  std::map<std::string, std::string> lines;
  for (const std::string &name : state->file.attributes("/record"))
    lines[name] = state->file.read_text_attribute("/record", name);
  return lines;
}

std::string ResultsFile::case_text() const
{
  return state->file.read_text("/record/case_text");
}

StoredResults read_results(const std::string &path)
{
  const ResultsFile file(path);
  StoredResults results;
  results.mesh = file.mesh();
  for (std::size_t s = 0; s < file.n_steps(); ++s) {
    StoredStep step{file.time(s), file.phase(s), file.on_bench(s), {}};
    for (const StoredField &field : stored_fields())
      step.fields[field.name] = file.field(s, field.name);
    if (!file.mesh().glue.lines.empty())
      for (const StoredField &field : stored_glue_fields())
        step.fields[field.name] = file.field(s, field.name);
    results.steps.push_back(std::move(step));
  }
  results.record = file.record();
  results.case_text = file.case_text();
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
