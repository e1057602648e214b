// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/gmsh_model.h"
#include "mesh/make_neck_mesh.h"
#include "tests/report.h"
#include "tests/unit/mesh_checks.h"
#include "tests/unit/mesh_shapes.h"

#include <gmsh.h>

using namespace overbend;

// Independent of the block layout: the same neck as a solid of the CAD kernel in Gmsh, lofted
// through spline sections, filled with straight-sided tetrahedra by Gmsh's own mesher.
namespace
{
namespace occ = gmsh::model::occ;

int wire_of(const std::vector<int> &curves)
{
  return occ::addWire(curves, -1, true);
}

// (y, depth) along the back from the treble to the bass edge, evenly spaced by length.
std::vector<std::array<double, 2>> back_points(const mesh::Section &s, int segments)
{
  constexpr int samples = 4000;
  std::vector<std::array<double, 2>> fine;
  std::vector<double> length = {0};
  for (int i = 0; i <= samples; ++i) {
    const double angle = std::acos(-1.0) * i / samples, e = 2 * s.inverse_exponent;
    const double c = std::cos(angle), q = std::max(0.0, std::sin(angle));
    fine.push_back({{std::copysign(s.half_width * std::pow(std::abs(c), e), c),
                     s.depth * std::pow(q < 1e-12 ? 0 : q, e)}});
    if (i > 0)
      length.push_back(length.back() +
                       std::hypot(fine[i][0] - fine[i - 1][0], fine[i][1] - fine[i - 1][1]));
  }
  std::vector<std::array<double, 2>> points;
  for (int k = 0, i = 0; k <= segments; ++k) {
    const double wanted = length.back() * k / segments;
    while (i + 1 < samples && length[i + 1] < wanted)
      ++i;
    const double t = (wanted - length[i]) / (length[i + 1] - length[i]);
    points.push_back({{fine[i][0] + t * (fine[i + 1][0] - fine[i][0]),
                       fine[i][1] + t * (fine[i + 1][1] - fine[i][1])}});
  }
  return points;
}

int section_wire(const mesh::NeckProfile &neck, double x)
{
  std::vector<int> points;
  for (const auto &[y, depth] : back_points(neck.section(x), 24))
    points.push_back(occ::addPoint(x, y, neck.top(x) - depth));
  const int back = occ::addSpline(points);
  const int across = occ::addLine(points.back(), points.front());
  return wire_of({back, across});
}

int board_wire(const mesh::NeckProfile &neck, double x)
{
  const double half = neck.half_width(x);
  std::vector<int> top;
  for (int i = 0; i <= 8; ++i) {
    const double y = half * (i / 4.0 - 1);
    top.push_back(occ::addPoint(x, y, neck.board_height(y)));
  }
  const int a = occ::addPoint(x, -half, 0), b = occ::addPoint(x, half, 0);
  return wire_of({occ::addLine(a, b), occ::addLine(b, top.back()), occ::addSpline(top),
                  occ::addLine(top.front(), a)});
}

void loft(const std::vector<int> &wires)
{
  gmsh::vectorpair out;
  occ::addThruSections(wires, out, -1, true, true);
}

double tetrahedra_volume()
{
  std::vector<std::size_t> tags, nodes;
  gmsh::model::mesh::getElementsByType(4, tags, nodes);
  std::vector<double> jacobians, determinants, points;
  gmsh::model::mesh::getJacobians(4, {0.25, 0.25, 0.25}, jacobians, determinants, points);
  double sum = 0;
  for (const double d : determinants)
    sum += d / 6;
  std::printf("%zu tetrahedra\n", tags.size());
  return sum;
}

double volume_by_tetrahedra(const mesh::NeckProfile &neck, double size)
{
  const mesh::GmshSession session;
  gmsh::model::add("tetrahedra");
  std::vector<int> lower, board;
  const auto section_at = [&](double from, double to, int n) {
    for (int i = 0; i < n; ++i)
      lower.push_back(section_wire(neck, from + (to - from) * i / n));
  };
  section_at(neck.tip, -0.045, 1);
  section_at(-0.045, 0, 6);
  section_at(0, neck.heel_start, 4);
  section_at(neck.heel_start, neck.body_join, 6);
  lower.push_back(section_wire(neck, neck.neck_end));
  for (const double x : {0.0, 0.5 * neck.board_end, neck.board_end})
    board.push_back(board_wire(neck, x));
  loft(lower);
  loft(board);
  occ::synchronize();
  gmsh::option::setNumber("Mesh.MeshSizeMax", size);
  gmsh::option::setNumber("Mesh.MeshSizeMin", size);
  gmsh::option::setNumber("Mesh.RandomFactor", 1e-6);
  gmsh::model::mesh::generate(3);
  const double volume = tetrahedra_volume();
  gmsh::model::remove();
  return volume;
}
} // namespace

// Source of the expected value: tetrahedra of Gmsh's CAD kernel, see above.
TEST(NeckMesh, VolumeAgreesWithTetrahedraOfTheCadKernel)
{
  cases::NeckShape shape = tests::classical_neck(); // no channel
  shape.headstock.kind = cases::HeadstockKind::tilted;
  double hexahedra = 0;
  for (const auto &entry : mesh::report(mesh::make_neck_mesh(shape)).volume)
    hexahedra += entry.second;
  const double tetrahedra = volume_by_tetrahedra(mesh::NeckProfile(shape), 6e-3);
  tests::report("volume of a whole neck, hexahedra", "m^3", "tetrahedra of a CAD kernel",
                tetrahedra, hexahedra, 0.01 * tetrahedra);
  EXPECT_NEAR(hexahedra / tetrahedra, 1, 0.01);
}
