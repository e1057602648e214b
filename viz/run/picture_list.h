// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/run/pictures.h"

#include <string>

namespace overbend::viz
{
// folder/pictures/<name>: a list of pictures with their texts, as JSON.
void write_list(const std::string &folder, const std::string &name, const Pictures &pictures);

// Pictures whose files are not there are left out. Throws solver::FileError if there is no list or
// it cannot be read.
Pictures read_list(const std::string &folder, const std::string &name);
} // namespace overbend::viz
