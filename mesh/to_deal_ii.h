// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"

namespace overbend::mesh
{
// Gives mesh.triangulation and mesh.mapping the cells, ids and quadratic nodes of mesh.hexes.
// Cell c of the triangulation is cell c of mesh.hexes. The mapping keeps its points when the
// NeckMesh is moved.
void fill_triangulation(NeckMesh &mesh);
} // namespace overbend::mesh
