// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"
#include "solver/mechanics/springs.h"
#include "solver/model/model.h"

#include <vector>

namespace overbend::solver
{
// What a set of strings does to the neck: constant tension along the line from bridge over nut to
// post, in the current shape.
//
// The potential is tension times length. With w the rise of the neck this is, besides the dead
// load,
//   T w_nut^2 / (2 L)  - T/2 integral (dw/dx)^2 dx  from nut to body join:
// the string's line turns with the nut, and the pushed neck bows further (column term).
struct StringPull
{
  double total = 0;         // N, all strings
  std::vector<double> load; // nodal
  std::vector<Spring> current_shape;
};

// Throws cases::CaseError for an unknown set.
StringPull make_string_pull(const cases::Case &the_case, const cases::Strings &strings,
                            const Model &model, const materials::Tables &tables, int line);

// Place of the post of string `index` (0 is the bass string) of `count`, on the headstock's face:
// distance from the nut along the face and offset across, m.
struct PostPlace
{
  double along = 0, across = 0;
};
PostPlace post_place(const cases::Tuners &tuners, unsigned index, unsigned count);

// Nodes of a face near a point: those within `radius`, and as many of the next nearest as it takes
// for the patch to carry a moment.
std::vector<unsigned> nodes_near(const Space &space, unsigned face_id, const Vec3 &point,
                                 double radius);
} // namespace overbend::solver
