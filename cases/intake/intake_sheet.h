// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::cases
{
// The intake sheet as one HTML file: every declared key but those of [[phase]] once, in the bench
// order, with boxes to write in, units, ticks for words and for unknown, a grid for the gaps under
// the straightedge, and cautions. It needs nothing else: no script, no picture, no other file; its
// content-security policy allows only the one style it holds. Prints on A4 and Letter in black.
// With a preset the usual values are that preset's. Throws CaseError for an unknown preset.
std::string intake_sheet(const std::string &preset = "");

// The style, and its SHA-256 in base64 as the policy names it (a test compares them).
extern const char *const sheet_style;
extern const char *const sheet_style_hash;
} // namespace overbend::cases
