// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/mechanics/springs.h"
#include "solver/model/space.h"

#include <vector>

namespace overbend::solver
{
// A pad under the neck as springs at points, apart from the mesh.
struct PadPoint
{
  Vec3 position;
  Row towards;     // by how much the surface moves towards the pad there, m: shape functions
  double area = 0; // seen from the pad, m^2
};

// Where a pad lies: under a surface that looks down, or over one that looks up.
enum class PadSide { below, above };

// Points of the faces that a pad between x = from and x = to bears on: where the surface looks
// towards the pad by at least half (its normal within 60 degrees of straight down or up). The part
// of each face over the pad is cut out and integrated by the three points of Lobatto each way (both
// ends and the middle), which is exact for the area of a quadratic face seen from the pad:
//   area of the pad = sum of areas, centre = sum of areas times x / area,
// whatever the cells are, and a pad moved by a little bears on a little more here and less there.
// All areas are positive. Points that two faces share come once. m. The cut to the 60 degrees is
// made in the middle of each face along the neck, and is as good as the mesh's back.
std::vector<PadPoint> pad_points(const Space &space, unsigned face_id, double from, double to,
                                 PadSide side = PadSide::below);

// Their mean movement, by weights w_i = A_i (1 + b (x_i - mean x)) whose middle is at x: where a
// strap or a caul presses, which does so about its own middle although the neck is broader at one
// of its ends. Weights sum to 1. Throws std::logic_error without points, or where they lie so far
// to one side of x that some would have to pull.
Row mean_towards(const std::vector<PadPoint> &points, double x);
} // namespace overbend::solver
