// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

// Gaps under a straightedge, fret by fret, and the bow they mean. Lengths in m.
namespace overbend::cases
{
// Fret -> gap between edge and board (or frets) there, 0 where they touch; never negative.
using Gaps = std::map<int, double>;

// Frets over which the bow is told.
struct Rests
{
  int near_nut = 1, near_body = 0;
};

// Bow at a fret: chord over the two rest frets minus the line, forward positive, in m.
//
//   bow(f) = g(f) - [ g(a) + (g(b) - g(a)) (x(f) - x(a)) / (x(b) - x(a)) ]
//
// g: gap, a and b: rest frets, x: distance from the nut by the equal-tempered rule. With the line
// z = e - g and e the straight edge, chord(z) - z = g - chord(g) at every x: the edge drops out,
// however it lies. On a forward bow it rests on a and b (their gaps are 0); on a back-bow it
// balances on the hump and the gaps are at its ends. Empty without a reading at a, b and f,
// without a scale length, or if a does not come before b. Closed form [C]; exact for exact gaps.
std::optional<double> bow_from_gaps(const Gaps &gaps, double scale_length, Rests rests, int fret);

struct BowAt
{
  int fret = 0;
  double bow = 0;
};

// The bows at all frets that were read, in order; empty without readings at both rests.
std::vector<BowAt> bows_from_gaps(const Gaps &gaps, double scale_length, Rests rests);

// Fret between the rests with the greatest bow either way, the first of equal ones; 0 if none was
// read.
int deepest_fret(const Gaps &gaps, double scale_length, Rests rests);

// "forward bow of 0.65 mm (26 thou), most at fret 7", "back-bow of ...", "straight within ...",
// "S-shaped: ...", and "; hump at fret 12: it stands 0.20 mm over its neighbours" where one fret
// holds most of the turning towards the strings. Bows below 0.05 mm count as none: as well as a
// straightedge and feeler gauges tell [E]. A sentence about what is missing if nothing can be said.
std::string shape_in_words(const Gaps &gaps, double scale_length, Rests rests);
} // namespace overbend::cases
