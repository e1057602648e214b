// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/strings.h"
#include "materials/tables.h"
#include "solver/model/space.h"

#include <vector>

namespace overbend::solver
{
// One pull of the device that bends the neck, as statics sees it: where it acts and how stiff it
// is. Axes of mesh/neck_mesh.h, m.
struct DevicePull
{
  // Where its cords leave the headstock, each with the same share of the pull; the middle of a
  // strap, a caul, or of the bar for a couple.
  std::vector<Vec3> at;
  // Of an equal, opposite pair: from the centre line to each end, m. 0: a single pull.
  double arm = 0;
  unsigned cords = 1;   // that share it alike; a couple has one at each end
  double stiffness = 0; // of all its cords together, N/m; of a couple, of one end

  bool is_couple() const { return arm > 0; }
  double x() const; // means over `at`
  double y() const;
};

// The pulls of the case's device, one for each of pull_names().
//
// A cord from a post of a solid headstock cannot go straight down through the wood: it leaves the
// post sideways, over the nearest edge, and then goes down, so that what the headstock feels is the
// pull at its edge; the post is loaded as its string loads it. (The pull of the post and that of
// the bend at the edge cancel but for the part straight down; rubbing at the edge is left out.)
// From a roller it goes down through the slot. With the instrument face down it leaves in line with
// the post.
//
// Throws std::invalid_argument for a post that the strings have not.
std::vector<DevicePull> device_pulls(const cases::Case &the_case, const materials::Tables &tables);

// A post that is pulled on: index of its string (0 is the bass string), place on the headstock's
// face, tension that the set the neck lived under puts on it, N, and how the cord loads it.
struct PulledPost
{
  cases::Post name;
  double along = 0, across = 0; // m
  double daily = 0;             // N
  materials::PostLoad load = materials::PostLoad::sideways;
};

// The posts of a side that the cords go to, nearest to the nut first; the middle one where the case
// names none. Empty on a side without posts.
std::vector<PulledPost> pulled_posts(const cases::Case &the_case, const materials::Tables &tables,
                                     cases::Side side);
} // namespace overbend::solver
