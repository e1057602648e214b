// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case.h"
#include "mesh/neck_mesh.h"

namespace overbend::mesh
{
// Rotation with columns L, R, T of one piece: L along (1, run_out_across, run_out_depth); R in the
// section at the ring angle from z (flat-sawn) to y (quarter-sawn), made square to L; T = L x R.
GrainFrame grain_frame(const cases::Grain &grain);

// The frames of all pieces by Piece. The fillet grows like the shaft, as does a headstock in one
// piece with it; the headstock piece of a scarf has its grain along its own face. A bar has none.
std::array<GrainFrame, 8> grain_frames(const cases::NeckShape &shape);
} // namespace overbend::mesh
