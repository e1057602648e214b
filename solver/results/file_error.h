// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/text/printable.h"

#include <stdexcept>
#include <string>
#include <utility>

namespace overbend::solver
{
// Files and disk: a file or folder that cannot be made, written or read, told in one sentence:
// `path: what; remedy`. The program ends with exit status 4. The sentence is one line, whatever the
// name holds.
class FileError : public std::runtime_error
{
public:
  FileError(std::string at_path, std::string what_is_wrong, std::string what_to_do)
      : std::runtime_error(cases::printable(at_path + ": " + what_is_wrong + "; " + what_to_do)),
        path(std::move(at_path)), problem(std::move(what_is_wrong)), remedy(std::move(what_to_do))
  {}

  std::string path;
  std::string problem, remedy;
};
} // namespace overbend::solver
