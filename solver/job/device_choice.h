// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"
#include "solver/plan/demand.h"

#include <vector>

namespace overbend::solver
{
// What the neck will ask of the device, estimated before anything is simulated.
//
//   F = 16.5 (EI/L^3) way hot,  way = (found - released)/kept
//
// EI bonded bending stiffness, L between the rest frets, 16.5 by the beam sums of the trade for a
// cradle past mid-shaft (reference 3.5: 107 to 123 N for a mm of bow on an electric [E]); a hot
// neck takes about four fifths of a cold one's pull. Torque 3.6 N m for a degree of twist (same
// source).
struct NeckNeeds
{
  double pull = 0;   // N, of the largest overbend of a pass
  double torque = 0; // N m about the neck's axis, either way
};

// `lift`: m, of strings that pull with `tension` (N) on the bonded neck; `kept`: share of a clamped
// way that stays.
NeckNeeds needs_of(const cases::Case &the_case, const materials::Tables &tables, double lift,
                   double tension, double kept);

// The benches that a plan tries, in the order in which it tries them: the case's own where it fixes
// the device; else those that reach by statics (device_reach.h) within the limits of what pulls
// (pull_limits.h), the simplest first, and after them those that would be strained further, the
// least first. One whose cords would have to push, or that makes no torque where one is needed, is
// left out unless there is no other.
std::vector<cases::Bench> device_choices(const cases::Case &the_case,
                                         const materials::Tables &tables, const NeckNeeds &needs);

// Whether the device bends the neck without loading the headstock's root.
bool spares_headstock(cases::Device device);
} // namespace overbend::solver
