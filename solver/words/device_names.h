// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

namespace overbend::solver
{
// "cords on the posts", "strap", "bar across the headstock", "strap and bar", "caul".
std::string device_name(cases::Device device);

// "bass 2 and treble 2": the posts named, or the middle one of each side.
std::string posts_in_words(const cases::Bench &bench);
} // namespace overbend::solver
