// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace overbend::viz
{
// How a program ended that was run for its output.
struct ChildEnd
{
  enum class Kind { exited, by_signal, too_slow, not_started };
  Kind kind = Kind::not_started;
  int number = 0;     // exit status, signal, or the system's error of the start
  std::string output; // what it wrote on its standard output
  std::string errors; // and on its standard error

  bool went_well() const { return kind == Kind::exited && number == 0; }
};

// Runs a program, found as the shell finds it, with the text as its standard input, and waits for
// its end; after `longest` it is killed. Signals that end this program end the child too. Needs no
// folder for temporary files.
ChildEnd run_program(const std::vector<std::string> &words, const std::string &input,
                     std::chrono::seconds longest);
} // namespace overbend::viz
