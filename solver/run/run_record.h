// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/record.h"

#include <functional>
#include <string>

namespace overbend::solver
{
// Writes the record of the run, with the case verbatim, as record.txt of the folder (FileError).
void write_record_text(const std::string &folder, const Record &record);

// Does the work of a run. If it throws, record.txt is written with the reason before the error goes
// on its way: "not converged: ...", "files: ..." or "stopped: ...". When even that cannot be
// written, the first error is the one that is told. What was written of the fields before stays
// readable.
void with_record_of_failure(const std::string &folder, const Record &record,
                            const std::function<double()> &seconds_gone,
                            const std::function<void()> &work);
} // namespace overbend::solver
