// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"

#include <string>

// Texts for the writer of a case, made from the table of declarations.
namespace overbend::cases
{
// The manual of the case file, in Markdown: cases/README.md.
std::string manual();

// What may stand behind the equals sign of a key, in Markdown: "-15 mm to 15 mm, or `unknown`".
std::string allowed_values(const Declaration &declaration);

// A case file with every key and its comment. Values of the preset and defaults are commented out
// as `#key = value`; what only the bench can say is filled in as an example. It reads as it is.
// Throws CaseError for an unknown preset.
std::string template_case(const std::string &preset);
} // namespace overbend::cases
