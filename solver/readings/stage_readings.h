// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/readings/reading.h"

#include <array>
#include <vector>

// What a bench reads of one shape of the board, all of it at once: bow, straightedge, string held
// down, winding sticks. Lengths in m, angles in rad; signs as in bench_readings.h.
//
// The rests are the case's: the straightedge lies from one rest fret to the other, and the string
// is held down there. The surface is the case's too: the frets with their heights, or the wood
// (fret_surface.h).
namespace overbend::solver
{
// The three lines, in the order of all arrays here.
constexpr std::array<const char *, 3> line_names = {"bass", "centre", "treble"};

// How the straightedge lies on one line, and what it shows there.
struct EdgeOnLine
{
  // False: it rests on two high points, rest_a and rest_b. True: they are so close together that it
  // rocks, on hump_fret; the gaps are those of the edge balanced so that both ends show the same.
  bool rocks = false;
  int rest_a = 0, rest_b = 0;
  int hump_fret = 0;
  double deepest_gap = 0; // resting: where the gap is largest; 0 when it rocks
  int deepest_gap_fret = 0;
  double end_gap = 0;      // rocking: at each end; 0 when it rests
  std::vector<double> gap; // by fret, entry 0 belongs to the rest fret near the nut
};

struct LineReadings
{
  double bow = 0;                  // signed, at the case's fret over its rest frets
  double deepest_bow = 0;          // signed, the largest amount between the rest frets
  int deepest_fret = 0;            // where
  std::vector<double> bow_by_fret; // signed, rest fret to rest fret
  EdgeOnLine edge;
  // Largest gap under a string that is held down at both rest frets, and where. Read on the outer
  // strings, which run close to the bass and treble lines; the centre line has it too.
  double relief = 0;
  int relief_fret = 0;
};

struct StageReadings
{
  std::array<LineReadings, 3> line; // bass, centre, treble
  double twist = 0;                 // between the rest frets
  double over_sticks = 0;           // the same at the tips of 300 mm winding sticks
};

// Two high points closer than this share of the edge's length do not hold it: it rocks [E]. An end
// gap smaller than least_gap (m) is none.
constexpr double firm_rest = 0.3, least_end_gap = 5e-6;

EdgeOnLine edge_on_line(const SampledLine &line, int rest_a, int rest_b);

// The line as the bench sees it, on the surface that it reads on. What is as built is taken as a
// parabola between the rest frets [E]: only its size at the fret of the readings is known.
SampledLine bench_line(const cases::Case &the_case, const BoardShape &shape,
                       const Reading &as_built, unsigned line);

// `of_model`: bows and twist of this shape without what is as built and what the frets add.
StageReadings stage_readings(const cases::Case &the_case, const BoardShape &shape,
                             const Reading &of_model, const Reading &as_built);
} // namespace overbend::solver
