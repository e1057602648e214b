// SPDX-License-Identifier: GPL-3.0-or-later
// Before deal.II, whose macro Assert takes a name that gmock defines.
#include <gmock/gmock.h>

#include "mesh/gmsh_model.h"
#include "mesh/grading.h"
#include "mesh/grain_frames.h"
#include "mesh/make_neck_mesh.h"
#include "mesh/shape_error.h"
#include "tests/unit/mesh_checks.h"
#include "tests/unit/mesh_shapes.h"

#include <deal.II/base/symmetric_tensor.h>
#include <gmsh.h>

#include <cstdio>

using namespace overbend;
using namespace overbend::mesh;
using testing::HasSubstr;

namespace
{
struct Named
{
  const char *name;
  cases::NeckShape shape;
};

std::vector<Named> all_necks()
{
  return {{"electric", tests::electric_neck()}, {"acoustic", tests::acoustic_neck()},
          {"scarf", tests::scarf_neck()},       {"classical", tests::classical_neck()},
          {"bass", tests::bass_neck()},         {"bonded bar", tests::barred_neck()}};
}

std::string refusal(const cases::NeckShape &shape)
{
  try {
    make_neck_mesh(shape);
  } catch (const ShapeError &error) {
    EXPECT_FALSE(error.remedy.empty());
    return error.problem;
  }
  return "";
}
} // namespace

TEST(NeckMesh, EveryNeckHasPositiveJacobiansAndItsVolumesAtThreeResolutions)
{
  for (const auto &[name, shape] : all_necks())
    for (const double resolution : {0.5, 1.0, 2.0}) {
      SCOPED_TRACE(std::string(name) + " at " + std::to_string(resolution));
      const NeckMesh mesh = make_neck_mesh(shape, resolution);
      const MeshReport quality = report(mesh);
      std::printf("%-10s resolution %.1f: %zu cells, %zu unknowns, least scaled Jacobian %.4f\n",
                  name, resolution, quality.cells, quality.unknowns, quality.least_scaled_jacobian);
      EXPECT_GT(quality.least_scaled_jacobian, 0);
      tests::expect_volumes(mesh, shape, 0.01);
    }
}

TEST(NeckMesh, GmshFindsTheSameVolumesWithItsOwnShapeFunctions)
{
  for (const auto &[name, shape] : all_necks()) {
    const NeckMesh mesh = make_neck_mesh(shape);
    const auto ours = report(mesh).volume;
    const GmshModel model(mesh);
    EXPECT_GT(model.least_jacobian(), 0) << name;
    const auto gmshs = model.volumes();
    ASSERT_EQ(gmshs.size(), ours.size()) << name;
    for (const auto &[piece, volume] : ours)
      EXPECT_NEAR(gmshs.at(piece) / volume, 1, 1e-10) << name;
  }
}

TEST(NeckMesh, MeshIsItsOwnMirrorImage)
{
  for (const auto &[name, shape] : all_necks()) {
    SCOPED_TRACE(name);
    tests::expect_symmetric(make_neck_mesh(shape));
  }
}

TEST(NeckMesh, GlueLinesAreDoubledNodeOnNode)
{
  for (const auto &[name, shape] : all_necks()) {
    SCOPED_TRACE(name);
    const NeckMesh mesh = make_neck_mesh(shape);
    EXPECT_GT(tests::expect_pairs(mesh, Face::board_glue_upper, Face::board_glue_lower), 80u);
    const bool scarf = shape.headstock.kind == cases::HeadstockKind::scarf;
    EXPECT_EQ(tests::expect_pairs(mesh, Face::scarf_head, Face::scarf_shaft) > 0, scarf);
  }
}

TEST(NeckMesh, ScarfIsPlaneAtItsAngle)
{
  for (const double angle : {8.0, 14.0, 20.0})
    for (const double start : {0.0, 0.004, 0.015}) {
      cases::NeckShape shape = tests::scarf_neck();
      shape.headstock.angle = tests::degrees(angle);
      shape.headstock.scarf_start = start;
      const NeckMesh mesh = make_neck_mesh(shape);
      const NeckProfile neck(shape);
      const double c = std::cos(shape.headstock.angle), s = std::sin(shape.headstock.angle);
      double worst = 0;
      for (const auto &f : mesh.hexes.faces())
        if (f.face == Face::scarf_head || f.face == Face::scarf_shaft)
          for (const unsigned n : f.node) {
            const auto &p = mesh.hexes.nodes()[n];
            worst = std::max(worst, std::abs((p[0] - neck.scarf_top) * s - p[2] * c));
          }
      EXPECT_LT(worst, 1e-12) << angle << " degrees, start " << start;
      // The plane meets the back where the case says.
      EXPECT_NEAR(neck.scarf_top - neck.depth(start) * c / s, start, 1e-12);
      tests::expect_volumes(mesh, shape, 0.01);
    }
}

TEST(NeckMesh, BarAndFilletRunThroughTheScarfInOneLength)
{
  const NeckMesh mesh = make_neck_mesh(tests::barred_neck());
  for (const auto &f : mesh.hexes.faces())
    if (f.face == Face::scarf_head || f.face == Face::scarf_shaft) {
      EXPECT_NE(mesh.hexes.cells()[f.cell].piece, Piece::bar);
    }
}

TEST(NeckMesh, GlueLineIsFineAtItsEnds)
{
  for (const auto &[name, shape] : all_necks()) {
    const NeckMesh mesh = make_neck_mesh(shape);
    const double glued_to = std::min(mesh.neck_end, mesh.board_length);
    double at_nut = 1, at_body = 1;
    for (const auto &f : mesh.hexes.faces()) {
      if (f.face != Face::board_glue_upper)
        continue;
      double low = 1, high = 0;
      for (const unsigned n : f.node) {
        low = std::min(low, mesh.hexes.nodes()[n][0]);
        high = std::max(high, mesh.hexes.nodes()[n][0]);
      }
      if (low < 1e-9)
        at_nut = high - low;
      if (high > glued_to - 1e-9)
        at_body = high - low;
    }
    EXPECT_LE(at_nut, 5.01e-3) << name;
    EXPECT_LE(at_body, 5.01e-3) << name;
  }
}

// The edge is the coldest and driest place of a line and decides its stiffness.
TEST(NeckMesh, GlueLineIsFineAlongItsEdges)
{
  for (const auto &[name, shape] : all_necks())
    for (const double resolution : {0.5, 1.0}) {
      const NeckMesh mesh = make_neck_mesh(shape, resolution);
      const NeckProfile neck(shape);
      std::size_t edges = 0;
      for (const auto &f : mesh.hexes.faces()) {
        if (f.face != Face::board_glue_upper)
          continue;
        double low = 1, high = 0;
        for (const unsigned n : f.node) {
          const auto &p = mesh.hexes.nodes()[n];
          const double from_side = neck.half_width(p[0]) - std::abs(p[1]);
          low = std::min(low, from_side);
          high = std::max(high, from_side);
        }
        if (low > 1e-9)
          continue;
        ++edges;
        // The widest board, a classical's, has 3.1 mm.
        EXPECT_LE(high, 3.2e-3) << name << " at " << resolution;
      }
      EXPECT_GT(edges, 20u) << name << " at " << resolution;
    }
}

TEST(GradedLines, DeclineInOneProportionAndHalveWithTwiceTheCells)
{
  const auto two = graded_lines(2, 1 / 16.), four = graded_lines(4, 1 / 16.);
  ASSERT_EQ(two.size(), 5u);
  ASSERT_EQ(four.size(), 9u);
  EXPECT_NEAR(two[2], 0.8, 1e-15); // 4 to 1
  EXPECT_NEAR(two[4], 1, 1e-15);
  EXPECT_NEAR(two[1], 0.4, 1e-15); // middles in the middle
  for (unsigned i = 0; i <= 2; ++i)
    EXPECT_NEAR(four[4 * i], two[2 * i], 1e-15);
  EXPECT_EQ(graded_lines(2, 1)[2], 0.5);
}

TEST(NeckMesh, ReadingLinesLieOnTheBoardAtTheFrets)
{
  const cases::NeckShape shape = tests::electric_neck();
  const NeckMesh mesh = make_neck_mesh(shape);
  ASSERT_EQ(mesh.centre.at_fret.size(), 22u);
  // Fret 12 halves the string.
  EXPECT_NEAR(mesh.centre.at_fret[12][0], shape.scale_length / 2, 1e-12);
  EXPECT_NEAR(mesh.centre.at_fret[12][2], shape.board_thickness, 1e-15);
  EXPECT_NEAR(mesh.treble.at_fret[12][1], 0.86 * shape.width_at_12 / 2, 1e-12);
  // Height of a circular arc of the board's radius over its chord.
  const double y = mesh.bass.at_fret[12][1], r = shape.board_radius;
  EXPECT_NEAR(mesh.bass.at_fret[12][2], shape.board_thickness - r + std::sqrt(r * r - y * y),
              1e-12);
}

TEST(NeckMesh, PointOfTheHeadstockFaceLiesAtItsDistanceFromTheNut)
{
  const auto shape = tests::scarf_neck();
  const auto p = on_headstock_face(shape, 0.1, 0.02);
  EXPECT_NEAR(std::hypot(p[0], p[2]), 0.1, 1e-12);
  EXPECT_NEAR(std::atan2(-p[2], -p[0]), shape.headstock.angle, 1e-12);
  EXPECT_NEAR(on_headstock_face(tests::electric_neck(), 0.1, 0)[2], -0.006, 1e-12);
}

TEST(GrainFrame, IsARotationWithTheDirectionsOfTheGrain)
{
  const double quarter = std::acos(0.0);
  const auto flat = grain_frame({0, 0, 0}), sawn = grain_frame({quarter, 0, 0});
  EXPECT_NEAR(flat[2][1], 1, 1e-15); // flat-sawn: R along z
  EXPECT_NEAR(sawn[1][1], 1, 1e-15); // quarter-sawn: R along y
  const auto sloped = grain_frame({0.7, 0.1, -0.05});
  EXPECT_NEAR(sloped[1][0] / sloped[0][0], 0.1, 1e-15);
  EXPECT_NEAR(sloped[2][0] / sloped[0][0], -0.05, 1e-15);
  EXPECT_NEAR(dealii::determinant(sloped), 1, 1e-14);
  EXPECT_NEAR(
      (dealii::transpose(sloped) * sloped - GrainFrame(dealii::unit_symmetric_tensor<3>())).norm(),
      0, 1e-14);
}

TEST(GrainFrame, HeadstockOfAScarfHasItsGrainAlongItsFace)
{
  const auto shape = tests::scarf_neck();
  const auto head = grain_frames(shape)[static_cast<unsigned>(Piece::headstock)];
  const auto p = on_headstock_face(shape, 0.15, 0);
  EXPECT_NEAR(head[0][0] * p[2] - head[2][0] * p[0], 0, 1e-15); // L along the face
  const auto one_piece = grain_frames(tests::acoustic_neck());
  EXPECT_EQ(one_piece[static_cast<unsigned>(Piece::headstock)],
            one_piece[static_cast<unsigned>(Piece::shaft)]);
}

TEST(GrainFrame, ChangesInAStraightLineBetweenTheEndsOfItsPiece)
{
  auto shape = tests::scarf_neck();
  shape.shaft.grain = {0.2, 0.1, -0.05, 0.6, -0.1, {}};
  shape.board.grain.run_out_depth_at_end = 0.08;
  shape.headstock.piece.grain.run_out_across_at_end = 0.2;
  const NeckGrain grain(shape);
  EXPECT_TRUE(grain.changes());
  EXPECT_FALSE(NeckGrain(tests::scarf_neck()).changes());
  const double join = cases::fret_position(shape.scale_length, shape.join_fret);
  EXPECT_LT((grain.at(Piece::shaft, 0) - grain_frame({0.2, 0.1, -0.05})).norm(), 1e-15);
  EXPECT_LT((grain.at(Piece::shaft, join / 4) - grain_frame({0.3, 0.05, -0.05})).norm(), 1e-15);
  EXPECT_LT((grain.at(Piece::fillet, 2 * join) - grain_frame({0.6, -0.1, -0.05})).norm(), 1e-15);
  const double end = cases::fret_position(shape.scale_length, shape.frets) + shape.board_end;
  const auto board = grain.at(Piece::board, end / 2);
  EXPECT_NEAR(board[2][0] / board[0][0], 0.04, 1e-14);
  // The scarfed headstock changes from the nut (x = 0) to its tip, seen along its own face.
  const double tip = -shape.headstock.length * std::cos(shape.headstock.angle);
  const auto at_tip = grain.at(Piece::headstock, tip), at_nut = grain.at(Piece::headstock, 0);
  EXPECT_NEAR(at_nut[1][0], 0, 1e-15);
  EXPECT_NEAR(at_tip[1][0] / std::hypot(at_tip[0][0], at_tip[2][0]), 0.2, 1e-14);
  // In one piece with the shaft it goes on as the shaft's nut end.
  shape.headstock.kind = cases::HeadstockKind::tilted;
  EXPECT_LT((NeckGrain(shape).at(Piece::headstock, tip) - grain_frame({0.2, 0.1, -0.05})).norm(),
            1e-15);
}

TEST(GrainFrame, OfAGluedUpShaftIsThatOfTheStripAtThePlace)
{
  auto shape = tests::scarf_neck();
  shape.laminations = {{0.025, {"", {0.3, 0, 0.02}}},
                       {0.010, {"", {0, 0.1, 0, 0.8, {}, {}}}},
                       {0.025, {"", {-0.3, 0, 0.02}}}};
  const NeckGrain own_headstock(shape);
  shape.headstock.laminated = true;
  const NeckGrain grain(shape);
  const double join = cases::fret_position(shape.scale_length, shape.join_fret);
  const auto expect = [](const GrainFrame &got, const cases::Grain &expected) {
    EXPECT_LT((got - grain_frame(expected)).norm(), 1e-15);
  };
  expect(grain.at(Piece::shaft, 0.1, -0.02), {0.3, 0, 0.02});
  expect(grain.at(Piece::shaft, join / 2, 0.002), {0.4, 0.1, 0});
  expect(grain.at(Piece::fillet, 0, 0.3), {-0.3, 0, 0.02}); // the outer strip has no outer end
  expect(grain.at(Piece::board, 0.1, 0.02), shape.board.grain);
  EXPECT_TRUE(grain.changes());
  // Past the scarf with the grain of the nut, tilted with the headstock; or as told for itself.
  const auto head = grain.at(Piece::headstock, -0.05, -0.02), flat = grain_frame({0.3, 0, 0.02});
  EXPECT_NEAR(std::atan2(head[2][0], head[0][0]),
              shape.headstock.angle + std::atan2(flat[2][0], flat[0][0]), 1e-14);
  EXPECT_EQ(own_headstock.strip(Piece::headstock, 0), std::nullopt);
  EXPECT_EQ(grain.strip(Piece::board, 0), std::nullopt);
  shape.board_laminated = true;
  expect(NeckGrain(shape).at(Piece::board, join / 2, 0.002), {0.4, 0.1, 0});
  EXPECT_EQ(NeckGrain(tests::scarf_neck()).strip(Piece::shaft, 0), std::nullopt);
}

TEST(GrainFrame, OfAPlaceOnALineIsThatOfTheInnerStrip)
{
  auto shape = tests::electric_neck();
  shape.laminations = {{0.020, {}}, {0.010, {}}, {0.010, {}}, {0.020, {}}};
  const NeckGrain grain(shape);
  EXPECT_EQ(grain.strip(Piece::shaft, -0.010), 1u);
  EXPECT_EQ(grain.strip(Piece::shaft, 0.010), 2u);
  EXPECT_EQ(grain.strip(Piece::shaft, -0.011), 0u);
  EXPECT_EQ(grain.strip(Piece::shaft, 0.011), 3u);
  EXPECT_EQ(grain.strip(Piece::shaft, 0), 1u);
}

TEST(NeckShape, ImpossibleNecksAreRefusedInWords)
{
  auto scarf = tests::scarf_neck();
  scarf.headstock.angle = tests::degrees(6);
  scarf.headstock.scarf_start = 0.2;
  EXPECT_THAT(refusal(scarf), HasSubstr("longer than the shaft"));
  auto deep = tests::electric_neck();
  deep.rod.channel_depth = 0.016;
  EXPECT_THAT(refusal(deep), HasSubstr("through the back"));
  auto wide = tests::electric_neck();
  wide.rod.channel_width = 0.03;
  EXPECT_THAT(refusal(wide), HasSubstr("too little wood"));
  auto thin = tests::electric_neck();
  thin.board_radius = 0.05;
  EXPECT_THAT(refusal(thin), HasSubstr("no thickness left"));
  auto heel = tests::acoustic_neck();
  heel.heel.length = 0.3;
  EXPECT_THAT(refusal(heel), HasSubstr("leaves no shaft"));
  auto filled = tests::electric_neck();
  filled.rod.fillet_depth = 0.012;
  EXPECT_THAT(refusal(filled), HasSubstr("fillet"));
  auto shallow = tests::electric_neck();
  shallow.depth_at_1 = 0.005;
  EXPECT_THAT(refusal(shallow), HasSubstr("depth at fret 1"));
}

TEST(GmshModel, WrittenFileHasTheNamedGroups)
{
  const std::string path = testing::TempDir() + "overbend_neck.msh";
  const NeckMesh mesh = make_neck_mesh(tests::scarf_neck());
  export_gmsh(mesh, path);
  const GmshSession session;
  gmsh::open(path);
  std::set<std::string> names;
  gmsh::vectorpair groups;
  gmsh::model::getPhysicalGroups(groups);
  for (const auto &[dimension, tag] : groups) {
    std::string name;
    gmsh::model::getPhysicalName(dimension, tag, name);
    names.insert(name);
  }
  for (const auto &[piece, volume] : report(mesh).volume)
    EXPECT_EQ(names.count(name(piece)), 1u) << name(piece);
  for (const auto &[face, count] : report(mesh).faces)
    EXPECT_EQ(names.count(name(face)), 1u) << name(face);
  std::vector<std::size_t> tags, nodes;
  gmsh::model::mesh::getElementsByType(12, tags, nodes);
  EXPECT_EQ(tags.size(), mesh.hexes.cells().size());
  std::remove(path.c_str());
}
