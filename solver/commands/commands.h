// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "cases/check/check_names.h"
#include "materials/tables.h"
#include "solver/results/record.h"

#include <functional>
#include <string>

// The commands of the program. Each prints to the standard output and throws what goes wrong:
// cases::CaseError and mesh::ShapeError (exit 2), NotConverged (3), FileError (4), anything else
// (1).
namespace overbend::solver
{
struct CommandOptions
{
  std::string case_file;
  std::string folder;   // of the output; empty: from the case's name
  bool replace = false; // an output folder that holds something
  bool quiet = false;   // no progress, and only the outcome
  bool full = false;    // a plan's whole text
  bool timing = false;
  // Puts the opener for ParaView beside the results; given by main, which alone knows viz.
  std::function<void(const std::string &folder)> write_opener = [](const std::string &) {};
  // Writes what people look at from a finished plan's folder: bench card, report, index.
  std::function<void(const std::string &folder)> write_pages = [](const std::string &) {};
};

// Loops over points run on two threads, whose results do not depend on it; BLAS on one.
constexpr int loop_threads = 2;

// Names and other accepted names of the tables.
cases::KnownNames known_names(const materials::Tables &tables);
// Reads a case and checks its names against the tables.
cases::Case read_checked_case(const std::string &path, const materials::Tables &tables);
Record record_of(const cases::Case &the_case, const materials::Tables &tables);

void check_command(const CommandOptions &options);
void template_command(const std::string &preset);
// what: woods, glues, strings, tuners, bars or presets. With a name: that entry with the source of
// every number; without: all entries, their numbers in brief.
void list_command(const std::string &what, const std::string &name);
void mesh_command(const CommandOptions &options, const std::string &mesh_file);
void simulate_command(const CommandOptions &options);
void plan_command(const CommandOptions &options);
} // namespace overbend::solver
