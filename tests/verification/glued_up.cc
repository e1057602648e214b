// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/glued_up.h"

#include "solver/model/strips.h"

namespace overbend::tests
{
void glue_up(Beam &beam, const std::vector<GluedStrip> &strips, std::optional<double> built)
{
  cases::NeckShape shape;
  shape.scale_length = 1;
  shape.frets = 20;
  shape.join_fret = 14;
  std::vector<solver::PieceModel> woods;
  for (const GluedStrip &strip : strips) {
    shape.laminations.push_back({strip.width, {"", strip.grain}});
    solver::PieceModel wood;
    wood.law = std::make_shared<materials::WoodLaw>(strip.wood, 1., built);
    wood.swelling_along = strip.swelling_along;
    woods.push_back(wood);
  }
  beam.model.strips =
      solver::lay_strips(beam.model.space, mesh::NeckGrain(shape), std::move(woods));
}

double curvature(const Beam &beam, const std::vector<double> &u, unsigned axis)
{
  const double length = beam.shape.length,
               z = (beam.shape.board_thickness - beam.shape.shaft_depth) / 2;
  const auto at = [&](double x) { return u[3 * beam.node(x, 0, z) + axis]; };
  const double span = length / 2;
  return (at(length / 4) + at(3 * length / 4) - 2 * at(length / 2)) / (span * span / 4);
}
} // namespace overbend::tests
