// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace overbend::solver
{
// One step as results.xdmf names it.
struct XdmfStep
{
  std::string group; // in the HDF5 file: "/steps/00012"
  double time = 0;   // h
};

// Text of results.xdmf: a temporal collection of one static mesh of 27-node hexahedra (XDMF 2,
// Hexahedron_27, the node order of VTK), with the fields of stored_fields() at the nodes and the
// piece at the cells. The data file is named relative to the .xdmf.
std::string xdmf_text(std::size_t n_nodes, std::size_t n_cells, const std::vector<XdmfStep> &steps,
                      const std::string &data_file);
} // namespace overbend::solver
