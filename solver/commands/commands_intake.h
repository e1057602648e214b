// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <iosfwd>
#include <string>

// The two commands of the intake: a sheet to print, and the same questions on the terminal.
namespace overbend::solver
{
struct IntakeOptions
{
  std::string file;         // to write
  std::string preset;       // may be empty
  bool replace = false;     // a file that is there
  bool resume = false;      // take the answers of the file that is there
  bool all = false;         // ask every key; a sheet with every key
  bool to_terminal = false; // a person types: show a mark to type behind, do not echo
  // The sheet as HTML, with every key or those that are needed; given by main, which alone knows
  // viz.
  std::function<std::string(const std::string &preset, bool all)> write_sheet;
};

// Writes the intake sheet. FileError if the file is there (unless replaced) or cannot be written;
// cases::CaseError for an unknown preset.
void sheet_command(const IntakeOptions &options);

// Asks, and keeps the file up to date with each answer, so that nothing is lost by a kill. The end
// of the input is like quit. Returns normally if the file is a complete case or nothing was
// answered; cases::CaseError (exit 2) if what was kept is unfinished, FileError as above.
void ask_command(const IntakeOptions &options, std::istream &in, std::ostream &out);
} // namespace overbend::solver
