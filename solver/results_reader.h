// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results.h"

#include <map>
#include <string>
#include <vector>

namespace overbend::solver
{
struct StoredStep
{
  double time = 0; // s
  std::string phase;
  std::map<std::string, std::vector<double>> fields; // by name, in the units of stored_fields()
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

// The table of readings by column, SI; not a number: not read then. Column "time" in s.
std::map<std::string, std::vector<double>> read_readings(const std::string &path);
} // namespace overbend::solver
