// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "mesh/neck_mesh.h"

#include <optional>
#include <vector>

namespace overbend::mesh
{
// Rotation with columns L, R, T at the nut end of a piece: L along (1, run_out_across,
// run_out_depth); R in the section at the ring angle from z (flat-sawn) to y (quarter-sawn), made
// square to L; T = L x R.
GrainFrame grain_frame(const cases::Grain &grain);

// The grain at a share of the way from the nut end (0) to the other end (1): ring angle and both
// slopes change in a straight line, and stay as they are beyond the ends. The result is constant.
cases::Grain grain_at(const cases::Grain &grain, double share);

// True if the grain of this piece of wood differs between its ends.
bool changes_along(const cases::Grain &grain);

// The grain of the neck as a function of the place.
//
// The fillet grows like the shaft, as does a headstock in one piece with it; the headstock piece of
// a scarf has its grain along its own face. A bar has none. The shaft's far end is the body join,
// the board's the end of the board, that of a scarfed headstock its tip.
//
// A shaft glued up from strips grows like the strip at y (strips: cases/case/strips.h), and so does
// what grows like the shaft, and a board in one piece with it. Past a scarf the strips run on with
// the grain they have at the nut, tilted with the headstock.
class NeckGrain
{
public:
  explicit NeckGrain(const cases::NeckShape &shape);

  GrainFrame at(Piece piece, double x, double y = 0) const;
  // Of a strip of the shaft; none: of the piece as if it were not glued up.
  GrainFrame at(Piece piece, double x, std::optional<unsigned> strip) const;
  // The strip, counted from the bass side, that this piece is made of at y; none if it is not glued
  // up. A place on the line between two strips belongs to the one nearer to the centre line, so
  // that mirrored strips give mirrored places; on the centre line itself, to the bass one.
  std::optional<unsigned> strip(Piece piece, double y) const;
  bool laminated() const { return !shape.laminations.empty(); }
  // y between the strips, from bass to treble, m.
  const std::vector<double> &strip_lines() const { return lines; }
  // True if any piece's grain changes along it.
  bool changes() const;

private:
  cases::NeckShape shape;
  std::vector<double> lines; // y between the strips
  double body_join, board_end, tip;
};

// The frames of all pieces by Piece at their nut ends; of a glued-up shaft on the centre line.
std::array<GrainFrame, 8> grain_frames(const cases::NeckShape &shape);
} // namespace overbend::mesh
