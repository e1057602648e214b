// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/make_neck_mesh.h"
#include "tests/unit/mesh_checks.h"
#include "tests/unit/mesh_shapes.h"

#include <random>

using namespace overbend;

namespace
{
// Sizes drawn over the ranges of the trade, from a ukulele to a long bass (common practice, no
// source). The raw generator is used, as the distributions of the library differ between systems.
class Draw
{
public:
  explicit Draw(unsigned seed) : engine_(seed) {}
  double between(double a, double b) { return a + (b - a) * engine_() / 4294967295.0; }
  int whole(int a, int b)
  {
    return a + static_cast<int>(engine_() % static_cast<unsigned>(b - a + 1));
  }

private:
  std::mt19937 engine_;
};

void draw_headstock(Draw &draw, cases::NeckShape &s)
{
  auto &head = s.headstock;
  head.kind = static_cast<cases::HeadstockKind>(draw.whole(0, 2));
  head.thickness = draw.between(0.0125, 0.018);
  head.length = draw.between(0.14, 0.26);
  head.width = draw.between(0.06, 0.1);
  if (head.kind == cases::HeadstockKind::flat)
    head.face_step = draw.between(0, 0.008);
  else
    head.angle = tests::degrees(draw.between(8, 20));
  if (head.kind == cases::HeadstockKind::scarf && draw.whole(0, 1) == 1)
    head.scarf_start = draw.between(0, 0.02);
  // On a short neck only a steep scarf has room.
  const double join = cases::fret_position(s.scale_length, s.join_fret);
  if (head.kind == cases::HeadstockKind::scarf && join < 0.26) {
    head.scarf_start = 0;
    head.angle = tests::degrees(draw.between(13, 20));
  }
}

void draw_rod(Draw &draw, cases::NeckShape &s)
{
  auto &rod = s.rod;
  rod.kind = static_cast<cases::RodKind>(draw.whole(0, 3));
  if (rod.kind == cases::RodKind::none)
    return;
  const double least = std::min(s.depth_at_1, s.depth_at_12) - s.board_thickness;
  rod.channel_width = draw.between(0.004, 0.010);
  rod.channel_depth = least * draw.between(0.5, 0.75);
  rod.fillet_depth = rod.channel_depth * draw.between(0.25, 0.6);
}

void draw_heel(Draw &draw, cases::NeckShape &s)
{
  auto &heel = s.heel;
  const double join = cases::fret_position(s.scale_length, s.join_fret);
  heel.kind = static_cast<cases::HeelKind>(draw.whole(0, 1));
  heel.length = std::min(draw.between(0.02, 0.06), 0.2 * join);
  const double shaft = s.depth_at_12 - s.board_thickness;
  if (heel.kind == cases::HeelKind::heel)
    heel.depth = draw.between(1.5 * shaft, 0.1);
  else {
    heel.depth = draw.between(shaft, 0.025);
    heel.pocket = draw.between(0.05, 0.09);
  }
}

cases::NeckShape draw_neck(unsigned seed)
{
  Draw draw(seed);
  cases::NeckShape s;
  s.scale_length = draw.between(0.34, 0.87);
  s.join_fret = draw.whole(12, 17);
  s.frets = s.join_fret + draw.whole(3, 7);
  s.nut_width = draw.between(0.028, 0.054);
  s.width_at_12 = s.nut_width + draw.between(0.005, 0.016);
  s.depth_at_1 = draw.between(0.017, 0.023);
  s.depth_at_12 = s.depth_at_1 + draw.between(0, 0.004);
  s.back_exponent = draw.between(1.6, 6);
  s.board_thickness = draw.between(0.0045, 0.007);
  s.board_radius =
      draw.whole(0, 2) == 0 ? std::numeric_limits<double>::infinity() : draw.between(0.184, 0.5);
  s.board_end = draw.between(0.003, 0.02);
  draw_headstock(draw, s);
  draw_rod(draw, s);
  draw_heel(draw, s);
  return s;
}
} // namespace

TEST(NeckMesh, HundredRandomNecksHavePositiveJacobiansAndTheirVolumes)
{
  double least = 1;
  std::size_t most = 0, fewest = 1000000;
  for (unsigned seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const cases::NeckShape shape = draw_neck(seed);
    try {
      const mesh::NeckMesh mesh = mesh::make_neck_mesh(shape);
      tests::expect_volumes(mesh, shape, 0.01);
      tests::expect_symmetric(mesh);
      tests::expect_pairs(mesh, mesh::Face::board_glue_upper, mesh::Face::board_glue_lower);
      tests::expect_pairs(mesh, mesh::Face::scarf_head, mesh::Face::scarf_shaft);
      const auto quality = mesh::report(mesh);
      least = std::min(least, quality.least_scaled_jacobian);
      most = std::max(most, quality.unknowns);
      fewest = std::min(fewest, quality.unknowns);
    } catch (const std::exception &error) {
      ADD_FAILURE() << error.what();
    }
  }
  std::printf("least scaled Jacobian %.4f, unknowns %zu to %zu\n", least, fewest, most);
}
