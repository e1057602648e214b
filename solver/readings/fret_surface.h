// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/readings/reading.h"

#include <string>
#include <vector>

// What worn and high frets do to the readings.
//
// The model knows the wood. An edge on the frets (cases::EdgeOn::frets) lies on the wood's line
// plus the height of each fret; with level frets both read the same. A signed bow is a chord minus
// a line, so the heights h add to it what they would read on a straight neck, whatever its shape:
//
//   bow on frets(f) = bow of the wood(f) + [chord of h over the rest frets - h](f)
//   twist on frets  = twist of the wood + (h_treble - h_bass)(a) / w(a) - (h_treble - h_bass)(b) /
//   w(b)
//
// a, b: rest frets near nut and body, w: distance across between the bass and the treble line.
// Closed form [C], exact for small angles. Gaps under a resting edge are no such sum: they are read
// from the line itself.
namespace overbend::solver
{
// Heights that the surface read on has over the wood at each fret (index = fret number), on a line
// (0 bass, 1 centre, 2 treble), m; all 0 on the wood.
std::vector<double> surface_heights(const cases::Case &the_case, unsigned line);

// The heights of the frets themselves, whatever the readings lie on.
std::vector<double> fret_heights(const cases::Case &the_case, unsigned line);

// Tilt across that the surface read on has over the wood at a fret, rad.
double surface_tilt(const cases::Case &the_case, int fret);

// What the surface adds to the readings of the wood: nothing on wood or with level frets.
Reading of_surface(const cases::Case &the_case);

// The readings found, as read, and turned into those of the wood. An unknown twist counts as none
// of the wood.
Reading as_found_at_bench(const cases::Case &the_case);
Reading found_wood(const cases::Case &the_case);

// Whether the frets make a reading differ from the wood by more than the plan's tolerances.
bool frets_matter(const cases::Case &the_case);

// "straightedge on the frets", "notched straightedge on the wood".
std::string edge_in_words(const cases::Case &the_case);

// "frets 1 and 14", "the wood at frets 1 and 14".
std::string rests_in_words(const cases::Case &the_case);

// What a bench would read: that of the model, what is as built, and what the surface adds.
Reading at_bench(const cases::Case &the_case, const Reading &of_model, const Reading &as_built);
} // namespace overbend::solver
