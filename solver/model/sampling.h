// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <vector>

// Values of nodal fields at any point: a sum of a few nodal values, exact for what the quadratic
// cells can hold. Find the sample once and use it for every state.
namespace overbend::solver
{
struct Sample
{
  std::vector<unsigned> node;
  std::vector<double> weight; // sum 1

  double value(const std::vector<double> &nodal) const;                  // one number a node
  double component(const std::vector<double> &vector, unsigned i) const; // three numbers a node
};

// A point this far outside the mesh is still taken as the nearest point of it, m.
constexpr double sampling_reach = 2e-3;

// The cell that holds the point (27 nodes). A point outside is projected on the nearest cell; one
// on a glue line belongs to either side. Throws std::runtime_error naming the point if it is
// farther than sampling_reach from the mesh.
Sample find_point(const Space &space, const Vec3 &point);

// The point (x, y) of a named face seen along z (9 nodes): the board's top from above, say. Throws
// std::runtime_error naming the point if it is farther than sampling_reach from the face.
Sample find_on_face(const Space &space, unsigned face_id, double x, double y);
} // namespace overbend::solver
