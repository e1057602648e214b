// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/layered_beam.h"

#include "mesh/grading.h"
#include "mesh/section.h"
#include "mesh/to_deal_ii.h"

#include <deal.II/base/symmetric_tensor.h>

#include <limits>

namespace overbend::mesh
{
namespace
{
using dealii::Point;

// Share of the half width at which the bass and treble reading lines run.
constexpr double edge_line = 0.86;

Section section_of(const LayeredBeam &beam)
{
  const double half = beam.width / 2;
  if (beam.back_exponent <= 0)
    return {half, half, beam.shaft_depth, 0.0};
  return {half, half / 2, beam.shaft_depth, 1 / beam.back_exponent};
}

std::vector<ColumnLine> columns_of(const LayeredBeam &beam)
{
  return beam.back_exponent <= 0 ? column_lines(beam.cells_across, 0, 0)
                                 : column_lines(beam.cells_core, 0, beam.cells_outer);
}

// y and depth of a column line at the share v of the depth.
std::array<double, 2> point_in(const Section &section, const ColumnLine &line, double v)
{
  if (line.zone == ColumnLine::Zone::outer) {
    const auto p = outer_point(section, line.t, v);
    return {{line.sign * p[0], p[1]}};
  }
  const double y = line.t * section.core;
  return {{line.sign * y, v * profile_depth(section, y)}};
}

void read_lines(const LayeredBeam &beam, unsigned frets, NeckMesh &mesh)
{
  for (unsigned i = 0; i <= frets; ++i) {
    const double x = beam.length * i / frets, y = edge_line * beam.width / 2;
    mesh.bass.at_fret.emplace_back(x, -y, beam.board_thickness);
    mesh.centre.at_fret.emplace_back(x, 0, beam.board_thickness);
    mesh.treble.at_fret.emplace_back(x, y, beam.board_thickness);
  }
}

void add_blocks(const LayeredBeam &beam, NeckMesh &mesh)
{
  SizeField sizes{std::numeric_limits<double>::max(), 0.5, {}};
  if (beam.end_cell > 0)
    sizes.marks = {{0, beam.end_cell}, {beam.length, beam.end_cell}};
  const auto x = stations(sizes, 0, beam.length, beam.cells_along);
  const auto along = [x](unsigned i) { return 0.5 * (x[i / 2] + x[(i + 1) / 2]); };
  const Section section = section_of(beam);
  const auto columns = columns_of(beam);
  const auto across = static_cast<unsigned>(columns.size() / 2);
  const bool board = beam.board_thickness > 0;

  HexBlock shaft;
  shaft.cells = {{beam.cells_along, across, beam.cells_shaft}};
  shaft.point = [=](unsigned i, unsigned j, unsigned k) {
    const auto p = point_in(section, columns[j], 1 - k / (2.0 * beam.cells_shaft));
    return Point<3>(along(i), p[0], -p[1]);
  };
  shaft.piece = [](unsigned, unsigned, unsigned) { return Piece::shaft; };
  shaft.side = {{Face::headstock_other, Face::body, Face::back, Face::back, Face::back,
                 board ? Face::board_glue_lower : Face::board_top}};
  mesh.hexes.add(shaft);
  if (!board)
    return;
  HexBlock top;
  top.cells = {{beam.cells_along, across, beam.cells_board}};
  top.point = [=](unsigned i, unsigned j, unsigned k) {
    return Point<3>(along(i), point_in(section, columns[j], 0)[0],
                    beam.board_thickness * k / (2.0 * beam.cells_board));
  };
  top.piece = [](unsigned, unsigned, unsigned) { return Piece::board; };
  top.solid = beam.glue_line ? Solid::board : Solid::shaft;
  top.side = {{Face::board_nut_end, Face::board_body_end, Face::board_side, Face::board_side,
               Face::board_glue_upper, Face::board_top}};
  mesh.hexes.add(top);
}
} // namespace

NeckMesh make_layered_beam(const LayeredBeam &beam, unsigned frets)
{
  NeckMesh mesh;
  add_blocks(beam, mesh);
  mesh.hexes.finish();
  fill_triangulation(mesh);
  mesh.grain.fill(GrainFrame(dealii::unit_symmetric_tensor<3>()));
  mesh.board_length = mesh.body_join = beam.length;
  read_lines(beam, frets, mesh);
  return mesh;
}
} // namespace overbend::mesh
