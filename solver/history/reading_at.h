// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"

namespace overbend::solver
{
// What the model reads at a time (s since the start of the first phase), linear between the steps
// of a history. std::logic_error outside them.
Reading reading_at(const History &history, double time);
} // namespace overbend::solver
