// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::solver
{
// Writes a text file as a whole: into `path`.tmp first, renamed when complete, so that a reader or
// a kill never meets half a file. Errors: FileError; the temporary file is removed.
void write_text_file(const std::string &path, const std::string &text);

// A new file takes the place of the old one: what is no file (a device, a pipe, perhaps the
// system's own) must not be replaced by one. FileError.
void refuse_to_replace_a_device(const std::string &path);

// A number as text that does not depend on the locale: `digits` significant ones, no more than
// needed. Not finite: std::invalid_argument.
std::string number_text(double value, int digits = 9);
} // namespace overbend::solver
