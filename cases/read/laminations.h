// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"
#include "cases/text/document.h"

// Reading and printing the [[lamination]]s of a shaft glued up from strips.
namespace overbend::cases
{
// The [[lamination]] items of a document in their order, bass first. What one does not say is
// as the shaft. The shaft must have been read. Throws CaseError.
std::vector<Lamination> listed_laminations(const Document &document, Draft &draft);

// The strips run on into the headstock: always where it is one piece with the shaft; through a
// scarf unless the file gives the headstock a wood or grain of its own. Such a headstock takes wood
// and grain of the shaft for what is no strip. They run on into the board where board and shaft are
// one piece (glue.board). Sets Headstock::laminated and NeckShape::board_laminated.
void run_strips_on(Case &result);

// The strip as its declarations see it.
LaminationDraft as_draft(const Lamination &strip);
} // namespace overbend::cases
