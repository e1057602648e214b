// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <string>

// What is done at one step of a plan, in sentences.
namespace overbend::solver
{
// Cradle, body, device and nut of a clamping phase.
std::string set_up_in_words(const cases::Case &the_case, const cases::Phase &phase);

// Where the bar lies, how the heat is held, where the probe sits, the wrap.
std::string heat_in_words(const cases::Case &the_case, const cases::Phase &phase);

// What the line has while the probe shows its figure: the middle and the edges beside it, and the
// hottest place. Empty without heat.
std::string line_beside_probe(const PlanReport &report);

// "fret 7, treble edge, in the glue line": where the probe sits.
std::string probe_place_in_words(const cases::Case &the_case);

// A stop block whose top lies so far below the resting headstock, m.
std::string block_in_words(double below);

// What a rod of that state is set to when the neck is strung up.
std::string rod_in_words(const cases::Case &the_case, cases::RodState state);

// Whether the cords are drawn by the buttons of tuners, so that turns can be told.
bool by_buttons(const cases::Case &the_case);

// "bass cords take up 5.17 mm (204 thou) = 3 1/4 button turns; treble cords hang slack": what is
// done at the start of a phase. Turns only where the cords run from tuners.
std::string take_ups_in_words(const PlanReport &report, const PlanColumn &column,
                              const PhaseEnd &phase);

// "bass cord 59 N (6.0 kgf, 13.3 lbf), treble cord slack".
std::string pulls_in_words(const cases::Case &the_case, const StepRecord &step);

// Beside a hot re-reading at the start of `phase`: how far the neck will have run on by then, and
// how a line that is faster or slower than planned shows itself.
std::string run_on_in_words(const PlanReport &report, const PlanColumn &column,
                            const PhaseEnd &phase);
std::string hot_reading_tells(const PlanReport &report, const PhaseEnd &phase);
} // namespace overbend::solver
