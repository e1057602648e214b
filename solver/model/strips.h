// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/grain_frames.h"
#include "solver/model/model.h"

// Where the woods of a laminated shaft are.
//
// The lines between strips run through the cells as they like; what is integrated sees them through
// the quadrature points. A point stands for the stretch of y that its weight has (5/18, 8/18 or
// 5/18 of the cell's width), and where a line cuts this stretch, the three points that follow each
// other along the neck are shared out between the strips so that the sum of their weights comes
// nearest to what each strip has of the stretch. Strain hardly changes over one cell, so strips
// side by side count by their shares, as E I = sum E_i I_i wants. A line is then off by at most
// 8/18 x 5/36 = 6 % of the cell's width, where asking each point by its place would be 22 %
// off; tests/verification/lamination_stiffness_test.cc measures what stiffness makes of it.
namespace overbend::solver
{
// L, R, T of a frame of the mesh as vectors.
std::array<Vec3, 3> columns(const mesh::GrainFrame &frame);

// Lays the woods of the strips over the points and cells of a space. A cell has one frame a strip,
// that at the x of its middle. Mirrored strips on a mirrored mesh come out mirrored, but in cells
// across the centre line.
StripModel lay_strips(const Space &space, const mesh::NeckGrain &grain,
                      std::vector<PieceModel> wood);

// The three points that follow each other along the neck, each given the index of a share, so that
// the squares of what is missing to the shares (which sum to 1) are least; of equals the first.
std::array<unsigned, 3> share_out(const std::vector<double> &shares);
} // namespace overbend::solver
