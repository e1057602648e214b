// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/readings/bench_readings.h"

namespace overbend::solver
{
// The fixed readings that the bench pulls to and the plan aims at.
struct Reading
{
  double bow_bass = 0, bow = 0, bow_treble = 0; // m; bow: on the centre line
  double twist = 0;                             // rad
};

// Rises of the board top at every fret (0: nut end) against the neck as built, on three lines.
struct BoardShape
{
  SampledLine bass, centre, treble;
};
} // namespace overbend::solver
