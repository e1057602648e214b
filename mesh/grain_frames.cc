// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/grain_frames.h"

#include "cases/case/strips.h"

#include <deal.II/base/symmetric_tensor.h>

#include <algorithm>
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

cases::Grain grain_at(const cases::Grain &grain, double share)
{
  const double s = std::clamp(share, 0., 1.);
  const auto between = [s](double a, const std::optional<double> &b) {
    return b ? a + s * (*b - a) : a;
  };
  return {between(grain.ring_angle, grain.ring_angle_at_end),
          between(grain.run_out_across, grain.run_out_across_at_end),
          between(grain.run_out_depth, grain.run_out_depth_at_end)};
}

bool changes_along(const cases::Grain &grain)
{
  return grain.ring_angle_at_end.value_or(grain.ring_angle) != grain.ring_angle ||
         grain.run_out_across_at_end.value_or(grain.run_out_across) != grain.run_out_across ||
         grain.run_out_depth_at_end.value_or(grain.run_out_depth) != grain.run_out_depth;
}

NeckGrain::NeckGrain(const cases::NeckShape &the_shape)
    : shape(the_shape), lines(cases::lines_between(shape.laminations)),
      body_join(cases::fret_position(shape.scale_length, shape.join_fret)),
      board_end(cases::fret_position(shape.scale_length, shape.frets) + shape.board_end),
      tip(-shape.headstock.length * std::cos(shape.headstock.angle))
{}

std::optional<unsigned> NeckGrain::strip(Piece piece, double y) const
{
  const bool of_shaft = piece == Piece::shaft || piece == Piece::fillet ||
                        (piece == Piece::headstock && shape.headstock.laminated) ||
                        (piece == Piece::board && shape.board_laminated);
  if (!laminated() || !of_shaft)
    return {};
  constexpr double on_the_line = 1e-9; // m
  const double inwards = y > 0 ? y - on_the_line : y + on_the_line;
  const double place = std::abs(y) < on_the_line ? -on_the_line : inwards;
  return static_cast<unsigned>(std::upper_bound(lines.begin(), lines.end(), place) - lines.begin());
}

GrainFrame NeckGrain::at(Piece piece, double x, double y) const
{
  return at(piece, x, strip(piece, y));
}

GrainFrame NeckGrain::at(Piece piece, double x, std::optional<unsigned> strip) const
{
  const cases::Grain &shaft = strip ? shape.laminations.at(*strip).piece.grain : shape.shaft.grain;
  switch (piece) {
  case Piece::board:
    return strip ? grain_frame(grain_at(shaft, x / body_join))
                 : grain_frame(grain_at(shape.board.grain, x / board_end));
  case Piece::headstock:
    if (shape.headstock.kind == cases::HeadstockKind::scarf) {
      const double c = std::cos(shape.headstock.angle), s = std::sin(shape.headstock.angle);
      // From axes along and square to the headstock's face to those of the neck.
      const GrainFrame tilt({{c, 0, -s}, {0, 1, 0}, {s, 0, c}});
      return tilt * grain_frame(strip ? grain_at(shaft, 0)
                                      : grain_at(shape.headstock.piece.grain, x / tip));
    }
    return grain_frame(grain_at(shaft, x / body_join));
  case Piece::shaft:
  case Piece::fillet:
    return grain_frame(grain_at(shaft, x / body_join));
  case Piece::bar:
  case Piece::rod_space:
    break;
  }
  return GrainFrame(dealii::unit_symmetric_tensor<3>());
}

bool NeckGrain::changes() const
{
  const auto &strips = shape.laminations;
  const bool shaft = laminated() ? std::any_of(strips.begin(), strips.end(),
                                               [](const cases::Lamination &strip) {
                                                 return changes_along(strip.piece.grain);
                                               })
                                 : changes_along(shape.shaft.grain);
  return shaft || changes_along(shape.board.grain) ||
         (shape.headstock.kind == cases::HeadstockKind::scarf && !shape.headstock.laminated &&
          changes_along(shape.headstock.piece.grain));
}

std::array<GrainFrame, 8> grain_frames(const cases::NeckShape &shape)
{
  std::array<GrainFrame, 8> frames;
  frames.fill(GrainFrame(dealii::unit_symmetric_tensor<3>()));
  const NeckGrain grain(shape);
  for (const Piece piece : {Piece::shaft, Piece::board, Piece::headstock, Piece::fillet})
    frames[static_cast<unsigned>(piece)] = grain.at(piece, 0);
  return frames;
}
} // namespace overbend::mesh
