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
  Row down;        // by how much the back comes down there, m: shape functions of one face
  double area = 0; // seen from below, m^2
};

// Points of the back's faces that a pad between x = from and x = to bears on: where the surface
// looks down by at least half (its normal within 60 degrees of straight down). The part of each
// face over the pad is cut out and integrated by the three points of Lobatto each way (both ends
// and the middle), which is exact for the area seen from below of a quadratic face:
//   area of the pad = sum of areas, centre = sum of areas times x / area,
// whatever the cells are, and a pad moved by a little bears on a little more here and less there.
// All areas are positive. Points that two faces share come once. m. The cut to the 60 degrees is
// made in the middle of each face along the neck, and is as good as the mesh's back.
std::vector<PadPoint> pad_points(const Space &space, unsigned face_id, double from, double to);
} // namespace overbend::solver
