// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/results.h"
#include "solver/strength/stress_means.h"

#include <string>
#include <vector>

namespace overbend::solver
{
// The mesh of a model as the results file wants it: cells in VTK's order of nodes.
MeshData mesh_data(const Model &model);

// The fields of one state at the nodes, along the axes of the neck.
//
// Stresses: in each cell the triquadratic polynomial through its 27 Gauss points is taken at its
// 27 nodes, and a node takes the mean of its cells, weighted by their volume. Cells of different
// pieces that share nodes (shaft and fillet) are averaged too; across a glue line the nodes are
// double and nothing is averaged. Use of strength: of the most used box of each cell, as in a test
// of 5 minutes (StressMeans), averaged the same way; in a cell that a line between strips cuts, of
// the wood that is used most, while its stress is the polynomial through both. Slip: amount at the
// nodes of the glue lines. No moisture given: as the neck was built. Glue surface: one point a glue
// point, in their order.
StepFields step_fields(const Model &model, const StressMeans &means, const MechanicsState &state,
                       const std::vector<double> &temperature, double time,
                       const std::string &phase, const std::vector<double> &moisture = {});
} // namespace overbend::solver
