// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"
#include "cases/text/document.h"

// Small helpers of the reader that need a file name and a line.
namespace overbend::cases
{
// The entry of that key, or nullptr.
const Entry *find_entry(const Section &section, const std::string &key);

// Stores the entry's value; a UnitError becomes a CaseError with file, line and key.
void store_entry(const std::string &file, const Declaration &declaration, const Entry &entry,
                 Draft &draft);

// Refuses sections and keys that are not declared, repeated sections, [name] and [[name]] mixed
// up, with did-you-mean.
void check_known(const Document &document);
} // namespace overbend::cases
