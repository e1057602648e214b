// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "mesh/neck_mesh.h"

namespace overbend::mesh
{
class NeckProfile;
struct GridCounts;

// Meshes a neck. resolution 1 is the default; 2 has about twice the cells each way.
// The mesh of any neck is its own mirror image in y. Every quadratic node lies on the shape of
// mesh/neck_profile.h; glue lines have doubled nodes at equal places; the scarf is exactly plane.
// Throws ShapeError for a neck that cannot be built or whose cells would be inside out.
NeckMesh make_neck_mesh(const cases::NeckShape &shape, double resolution = 1);

// The same with counts of one's own: to see what a column or a layer more changes.
NeckMesh make_neck_mesh(const NeckProfile &profile, const GridCounts &counts);
} // namespace overbend::mesh
