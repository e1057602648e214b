// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::viz
{
// Writes bench-card.html, report.html and index.html into the folder of a finished plan, from its
// plan.json, results.h5 and pictures; earlier ones are replaced.
// Errors: solver::FileError.
void write_pages(const std::string &folder);
} // namespace overbend::viz
