// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"

#include <optional>
#include <string>

// Neck angle or bow? A straightedge along the frets, carried on to the bridge, tells the angle; but
// a bow moves that reading too, for it tilts the neck against the body.
//
// The board is held by the body from the join on. A bow found is taken as an arc that leaves the
// body's line at the join [E]: with the height of the board over that line
//
//   z(x) = k (x_j - x)^2 / 2 before the join, 0 beyond it,
//
// the bow at fret m over frets a and j is k (x_m - x_a) (x_j - x_m) / 2. An edge over a forward bow
// lies on fret a and on the last fret e, and is at the bridge (x = L) lower by
//
//   z(x_a) (L - x_e) / (x_e - x_a).
//
// About twice the bow on a guitar of 14 frets to the body and 20 in all [C]. Over a back-bow the
// edge lies near the join, and reads the angle almost alone. The frets' heights are part of the
// line.
namespace overbend::solver
{
struct NeckAngle
{
  double read = 0;          // height of the edge over the bridge's top as found, m
  double by_bow = 0;        // what bow and frets add to it
  double straight = 0;      // what it would be with a straight neck and level frets
  double from = 0, to = 0;  // with a right angle
  double out = 0;           // how far `straight` lies beyond the range: negative too low, 0 within
  bool read_is_out = false; // the reading itself lies beyond the range
  bool wrong = false;       // beyond the range by more than the reading's error
  bool in_doubt = false;    // beyond it by less
};

// What a bow of the wood (m, centre, at the case's fret over its rests) and the frets as they are
// add to the reading over the bridge, m.
double over_bridge_by_bow(const cases::Case &the_case, double wood_bow);

// None without the reading.
std::optional<NeckAngle> neck_angle(const cases::Case &the_case,
                                    const materials::WorkLimits &limits);

// The readings in a sentence: as found, what of it the bow makes, and what is right.
std::string in_words(const NeckAngle &angle);

// "too low": the edge meets the bridge deeper than is right.
std::string side_in_words(const NeckAngle &angle);
} // namespace overbend::solver
