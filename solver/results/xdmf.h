// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/results.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace overbend::solver
{
// One step as results.xdmf names it.
struct XdmfStep
{
  std::string group; // in the HDF5 file: "/steps/00012"
  double time = 0;   // h
};

// Sizes of the mesh that results.xdmf tells of.
struct XdmfMesh
{
  std::size_t n_nodes = 0, n_cells = 0, n_glue_nodes = 0;
  std::vector<std::pair<std::string, std::size_t>> glue_lines; // name, faces
};
XdmfMesh xdmf_mesh(const MeshData &mesh);

// Text of results.xdmf (XDMF 2): a temporal collection; each time holds the block "neck" (one
// static mesh of 27-node hexahedra, Hexahedron_27, the node order of VTK), with the fields of
// stored_fields() at the nodes and the piece at the cells, and a block for each glue line, such as
// "board glue" (9-node faces, Quadrilateral_9), with its displacement, slip and shear under the
// names "displacement [m]", "slip [mm]" and "shear [MPa]". The data file is named relative to the
// .xdmf.
std::string xdmf_text(const XdmfMesh &mesh, const std::vector<XdmfStep> &steps,
                      const std::string &data_file);
} // namespace overbend::solver
