// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"
#include "cases/text/document.h"

namespace overbend::cases
{
// The [[phase]] items of a document, merged in order. Throws CaseError.
std::vector<Phase> listed_phases(const Document &document, Draft &draft);
} // namespace overbend::cases
