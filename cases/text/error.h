// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/text/printable.h"

#include <stdexcept>
#include <string>

namespace overbend::cases
{
// A mistake in a case file, told to its author in one sentence: `file:line: what; remedy`.
// Line 0 means the file as a whole (missing, empty, too large) and is left out of the message.
// Whatever the file and its name hold, the sentence is one line that can be shown anywhere.
// The program ends with exit status 2.
class CaseError : public std::runtime_error
{
public:
  CaseError(std::string in_file, int at_line, std::string what_is_wrong, std::string what_to_do)
      : std::runtime_error(printable(in_file + (at_line > 0 ? ":" + std::to_string(at_line) : "") +
                                     ": " + what_is_wrong + "; " + what_to_do)),
        file(std::move(in_file)), line(at_line), problem(std::move(what_is_wrong)),
        remedy(std::move(what_to_do))
  {}

  std::string file;
  int line;
  std::string problem, remedy;
};
} // namespace overbend::cases
