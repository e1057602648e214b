// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/results.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace overbend::solver
{
struct StoredStep
{
  double time = 0; // s
  std::string phase;
  OnBench on_bench;
  // By name, in the units of stored_fields() and (if there is a glue line) stored_glue_fields().
  std::map<std::string, std::vector<double>> fields;
};

struct StoredResults
{
  MeshData mesh;
  std::vector<StoredStep> steps;
  std::map<std::string, std::string> record;
  std::string case_text;
};

// Reads a results.h5, also one whose run was killed: the steps it did not complete are
// left out.
// Errors: FileError (missing, not a results file, another format number).
StoredResults read_results(const std::string &path);

// The same one field at a time: all steps of a long run on a fine mesh need gigabytes.
class ResultsFile
{
public:
  explicit ResultsFile(const std::string &path);
  ~ResultsFile();
  ResultsFile(const ResultsFile &) = delete;
  ResultsFile &operator=(const ResultsFile &) = delete;

  const MeshData &mesh() const;
  std::size_t n_steps() const;
  double time(std::size_t step) const; // s
  const std::string &phase(std::size_t step) const;
  const OnBench &on_bench(std::size_t step) const;
  bool has_field(std::size_t step, const std::string &name) const;
  std::vector<double> field(std::size_t step, const std::string &name) const;
  std::map<std::string, std::string> record() const;
  std::string case_text() const;

private:
  struct State;
  std::unique_ptr<State> state;
};

// The table of readings by column, SI; not a number: not read then. Column "time" in s.
std::map<std::string, std::vector<double>> read_readings(const std::string &path);
} // namespace overbend::solver
