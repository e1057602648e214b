// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/bench_heat.h"
#include "solver/plan/bench_state.h"
#include "solver/readings/stage_readings.h"
#include "solver/results/readings_table.h"

#include <vector>

// All readings of a run as tables: what readings.csv, gaps.csv and results.h5 hold. A column with
// bass in its name has a partner with treble; the names that begin with "twist" change sign when
// the sides are swapped; nothing else depends on the side (tests: mirror of a whole neck).
namespace overbend::solver
{
// What probe and bar show at each step: at the start of a phase as after what is done there.
std::vector<HeatReading> heat_at_steps(const History &history, const HeatReader &heat);

// One row a step. `states` and `heat` hold one a step (std::logic_error otherwise). The gap is of
// the edge where it rests, the end gap of one that rocks: the other is empty. The string held down
// is what it would show there, also while the strings are off.
ReadingsTable readings_table(const cases::Case &the_case, const History &history,
                             const std::vector<BenchState> &states, const Reading &as_built,
                             const std::vector<HeatReading> &heat);

// Bow over the rest frets and gap under the edge as it lies, fret by fret on the three lines, and
// twist against the rest fret at the body: one row a fret, at the start and the end of each phase.
// `across`: distance between bass and treble line at each fret, m.
ReadingsTable gaps_table(const cases::Case &the_case, const History &history,
                         const Reading &as_built, const std::vector<double> &across);

// Twist of a shape at a fret against that at the rest fret at the body, rad; what is as built
// counts as a straight line over the rest frets [E]. With what the frets add where it is read on
// them.
double twist_at_fret(const cases::Case &the_case, const BoardShape &shape, const Reading &as_built,
                     const std::vector<double> &across, int fret);
} // namespace overbend::solver
