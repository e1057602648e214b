// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

// Texts for the writer of a case, made from the table of declarations.
namespace overbend::cases
{
// The manual of the case file, in Markdown: cases/README.md.
std::string manual();

// A case file with every key and its comment. Values of the preset and defaults are commented out
// as `#key = value`; what only the bench can say is filled in as an example. It reads as it is.
// Throws CaseError for an unknown preset.
std::string template_case(const std::string &preset);
} // namespace overbend::cases
