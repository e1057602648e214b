// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/neck_mesh.h"

#include <string>

namespace overbend::solver
{
// Whether a mesh may be written there, before it is made: CaseError for an ending that is not .msh,
// FileError for a file that is there and not to be replaced, a device, or a folder that is missing.
void check_mesh_file(const std::string &path, bool replace);

// Writes the mesh in Gmsh's format, under another name first, and sees that it is whole. FileError.
void write_mesh(const mesh::NeckMesh &neck, const std::string &path);
} // namespace overbend::solver
