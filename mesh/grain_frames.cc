// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/grain_frames.h"

#include <deal.II/base/symmetric_tensor.h>

#include <cmath>

namespace overbend::mesh
{
using dealii::Tensor;

GrainFrame grain_frame(const cases::Grain &grain)
{
  Tensor<1, 3> l({1, grain.run_out_across, grain.run_out_depth});
  l /= l.norm();
  Tensor<1, 3> r({0, std::sin(grain.ring_angle), std::cos(grain.ring_angle)});
  r -= (r * l) * l;
  r /= r.norm();
  const Tensor<1, 3> t = dealii::cross_product_3d(l, r);
  GrainFrame frame;
  for (unsigned d = 0; d < 3; ++d) {
    frame[d][0] = l[d];
    frame[d][1] = r[d];
    frame[d][2] = t[d];
  }
  return frame;
}

std::array<GrainFrame, 8> grain_frames(const cases::NeckShape &shape)
{
  std::array<GrainFrame, 8> frames;
  frames.fill(GrainFrame(dealii::unit_symmetric_tensor<3>()));
  const auto at = [&](Piece piece) -> GrainFrame & { return frames[static_cast<unsigned>(piece)]; };
  at(Piece::shaft) = at(Piece::fillet) = at(Piece::headstock) = grain_frame(shape.shaft.grain);
  at(Piece::board) = grain_frame(shape.board.grain);
  if (shape.headstock.kind == cases::HeadstockKind::scarf) {
    const double c = std::cos(shape.headstock.angle), s = std::sin(shape.headstock.angle);
    // From axes along and square to the headstock's face to those of the neck.
    const GrainFrame tilt({{c, 0, -s}, {0, 1, 0}, {s, 0, c}});
    at(Piece::headstock) = tilt * grain_frame(shape.headstock.piece.grain);
  }
  return frames;
}
} // namespace overbend::mesh
