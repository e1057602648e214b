// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"
#include "solver/heating/heat_limits.h"

namespace overbend::solver
{
// How hot, how long, wrapped or bare, and from where to where the bar lies, where the case leaves
// it open.
//
// The set point is the hottest, in whole degrees, at which every place stays within its own limit
// even when the thermostat or the hand overshoots: the board's line by the line's limit, surfaces
// and the back under the cradle by theirs (heat_limits). Temperatures above the room grow in
// proportion to the bar's: conduction is linear and radiation nearly so; the plan's own history
// with the overshoot checks it. The hold lasts until an hour more would keep less than
// WorkLimits::kept_an_hour more of the clamped way.

// What decided the set point.
enum class HeatStop { line, board_surface, fret_tops, back_under_cradle, asked_for };

// Why the neck is wrapped or bare.
enum class WrapReason { asked_for, keeps_the_line_even, back_would_print };

// Hottest temperature of each place over a history (line_heat.h), K; 0: there is no such place.
struct HeatPlaces
{
  double line = 0, board_surface = 0, fret_tops = 0, bar = 0, back_under_cradle = 0, scarf = 0;
};

struct HeatChoice
{
  double set_point = 0, overshoot = 0; // K; of the bar, at its sensor
  HeatStop decided_by = HeatStop::asked_for;
  WrapReason wrap = WrapReason::asked_for;
  HeatLimits limits;
  HeatPlaces at_set_point, with_overshoot; // K
  // Share of the clamped way that the line keeps by the closed form (first_guess.h): at the set
  // point and hold; with a degree more, and with an hour more.
  double kept = 0, kept_with_a_degree = 0, kept_with_an_hour = 0;
};

// The longest hold that a plan chooses, s.
constexpr double longest_hold = 6 * 3600.;

// Fills in what the case leaves open of the heat, and remakes its phases. `lift`: of the strings to
// come on the bonded neck, m (string_lift). std::runtime_error as simulate_heat.
HeatChoice choose_heat(cases::Case &the_case, const mesh::NeckMesh &mesh,
                       const materials::Tables &tables, double lift);
} // namespace overbend::solver
