// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::viz
{
// Which keys stand on the sheet: those that a plan hangs on (cases::is_needed), on one page; or
// every declared key but those of [[phase]] and [[lamination]], once.
enum class SheetExtent { needed, all };

// The intake sheet as one HTML file, in the bench order, with boxes to write in, units, ticks for
// words and for unknown, a grid for the gaps under the straightedge, and cautions. It needs nothing
// else: no script, no picture, no other file. Prints on A4 and Letter in black. With a preset the
// usual values are that preset's. Throws cases::CaseError for an unknown preset.
std::string intake_sheet(const std::string &preset = "", SheetExtent extent = SheetExtent::needed);
} // namespace overbend::viz
