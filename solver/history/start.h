// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"

#include <string>

namespace overbend::solver
{
// How the neck got its shape, and how much of it is where.
//
// The found shape is reached only by histories on the neck as built, so that slip, self-stress and
// creep are in equilibrium and the bow is not counted twice.
struct Diagnosis
{
  Reading found;                 // of the wood (fret_surface.h), twist 0 if unknown
  double lift = 0;               // bow that the strings it lived under add to the bonded neck, m
  double slipped_lift = 0;       // the same while the board's line slips freely, m
  double bonded_share = 0;       // rho: bow by a newton of the clamp, bonded against slipped
  double bonded_twist_share = 0; // the same for twist by a torque
  double ceiling = 0;            // largest bow that heat under these strings alone can leave, m
  double slip_bow = 0, wood_bow = 0;           // m, parts of the found centre bow
  double slip_twist = 0, wood_twist = 0;       // rad
  double moisture_bow = 0, moisture_twist = 0; // m, rad: by swelling since it was built
  double rod_bow = 0, rod_twist = 0;           // m, rad: by the pull of a seized rod, at once
  double severity = 0;                         // share of the simulated cause that was needed, 0..1
  Reading as_built;                   // what no history explains: added to every later reading
  double wood_share() const;          // q: share of what the histories made that is in the wood
  double wood_share_of_found() const; // the same of the bow as found, as built included
  std::vector<std::string> remarks;
};

struct FoundNeck
{
  Progress progress; // strings off, on a bare bench; a seized rod pulls with its force
  Diagnosis diagnosis;
};

// moisture: nodal contents at the start (kg/kg); empty: as the neck was built. What it has swollen
// or shrunk since then is its share of the found shape (at once and elastic: an upper bound, since
// creep lets go of swelling stress in years), the histories explain the rest.
// A seized rod is in the neck with its pull throughout: what it bends the neck by is its share of
// the found shape, and strings and rod together make the histories.
// Throws NotConverged. A known hot store is simulated with its heat, and with the dry air that goes
// with it or in a closed case.
FoundNeck find_start(const NeckOnBench &neck, const StringPull &found_strings,
                     const std::vector<double> &moisture = {});

// State of the rod that nothing done on the bench changes: seized, or slack for all others.
cases::RodState rod_left_in(const cases::Case &the_case);

// Bow (m, centre) that strings, and a rod in a state, add at once to the unstressed bonded neck:
// what strung minus slack should read. A seized rod is in it before and after: a spring.
double string_lift(const NeckOnBench &neck, const StringPull &strings,
                   cases::RodState rod = cases::RodState::slack);
} // namespace overbend::solver
