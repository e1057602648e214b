// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <string>

namespace overbend::viz
{
// The page to pin above the bench: black and white, one sheet of A4 or Letter, its main figures
// large enough to read at a metre. On a phone it has one column, a clock to start and steps to tick
// off (card.js). Where the plan says no it shows why and no set-up.
std::string bench_card(const PlanFile &plan);

// Side view to scale: neck as built, cradle, pads, cords, bar, iron and probe where the plan puts
// them, frets named (card_sketch.cc). SVG.
std::string card_sketch(const PlanFile &plan);

// Readings to reach cold, take-up and turns (card_parts.cc); each an HTML section.
std::string card_cold(const PlanFile &plan);
std::string card_hot(const PlanFile &plan); // empty where the cold pull decides
// What the neck may have run on to at the second hot reading; empty where there is none.
std::string card_second_reading(const PlanFile &plan); // card_second.cc
// mm large, thou small beside it.
std::string big_and_small(const PlanFile &plan, const std::string &pointer);
// Whether the plan says what to let up to then; else it is read for the record alone.
bool reads_to_let_up(const PlanFile &plan);
std::string second_reading_table(const PlanFile &plan);
std::string card_heat(const PlanFile &plan);
std::string card_before(const PlanFile &plan);
std::string card_clock(const PlanFile &plan);
std::string card_expect(const PlanFile &plan);
std::string card_stop(const PlanFile &plan);
std::string card_strip();

// Number of the phase in which the cords first pull to a reading; n_phases() if none does.
std::size_t cold_phase(const PlanFile &plan);
// The phase in which the overbend is pulled.
std::size_t deciding_phase(const PlanFile &plan);
} // namespace overbend::viz
