// SPDX-License-Identifier: GPL-3.0-or-later
// Mean stress over boxes, and what is watched with it.
#include "solver/strength/stress_means.h"

#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "solver/plan/plan.h"
#include "solver/strength/cell_geometry.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

using namespace overbend;
using namespace overbend::solver;

namespace
{
struct Neck
{
  explicit Neck(double resolution = 0.5, const char *preset = "electric")
      : c(cases::preset_case(preset)), mesh(mesh::make_neck_mesh(c.neck, resolution)),
        input{c, mesh, materials::tables(), [](const std::string &) {}, {}},
        work(input.the_case, input.mesh, input.tables, {})
  {}
  Neck(const Neck &) = delete;

  // The same stress in wood axes at every point of a piece, as a function of its place.
  template <typename Function>
  void stress(MechanicsState &state, Function &&at) const
  {
    const Space &space = work.model.space;
    std::array<std::vector<double>, 3> place;
    for (unsigned i = 0; i < 3; ++i) {
      std::vector<double> nodal;
      for (const Vec3 &p : space.position)
        nodal.push_back(p[i]);
      place[i] = at_points(space, nodal);
    }
    for (std::size_t p = 0; p < state.wood.size(); ++p)
      state.wood[p].stress = at(mesh::Piece(space.piece[p / points_per_cell]),
                                Vec3{place[0][p], place[1][p], place[2][p]});
  }

  mesh::Piece piece_of(const StressBox &box) const
  {
    return mesh::Piece(work.model.space.piece[work.means.boxes.part[box.part].cell]);
  }

  cases::Case c;
  mesh::NeckMesh mesh;
  PlanInput input;
  Workbench work;
};

// On a fine mesh most boxes reach over several cells, on a coarse one hardly any does.
class StressMeansOn : public ::testing::TestWithParam<double>
{};
} // namespace

// A mean of what is the same everywhere is that [C].
TEST_P(StressMeansOn, ConstantStressIsItsOwnMean)
{
  const Neck neck(GetParam());
  MechanicsState state = unstressed(neck.work.model);
  const materials::Vector6 everywhere{1e6, 2e6, -3e6, 4e5, 5e5, -6e5};
  neck.stress(state, [&](mesh::Piece, const Vec3 &) { return everywhere; });
  for (const materials::Vector6 &mean : neck.work.means.stress(neck.work.model, state))
    for (unsigned s = 0; s < 6; ++s)
      EXPECT_NEAR(mean[s], everywhere[s], 1e-6);
}

// Wood on the other side of a glue line, or of another kind, does not carry for this one.
TEST_P(StressMeansOn, NoBoxReachesIntoOtherWood)
{
  const Neck neck(GetParam());
  MechanicsState state = unstressed(neck.work.model);
  neck.stress(state, [](mesh::Piece piece, const Vec3 &) {
    return materials::Vector6{piece == mesh::Piece::board ? 1e6 : 0, 0, 0, 0, 0, 0};
  });
  const auto mean = neck.work.means.stress(neck.work.model, state);
  for (std::size_t b = 0; b < mean.size(); ++b)
    EXPECT_NEAR(mean[b][0],
                neck.piece_of(neck.work.means.boxes.box[b]) == mesh::Piece::board ? 1e6 : 0, 1e-6);
}

// The mean of a linear stress over a box is the stress in its middle [C]; cells are curved a
// little, which the trilinear in their own coordinates does not follow.
TEST_P(StressMeansOn, LinearStressIsMetInTheMiddleOfTheBox)
{
  const Neck neck(GetParam());
  MechanicsState state = unstressed(neck.work.model);
  const auto linear = [](const Vec3 &p) { return 1e8 * p[2] + 3e7 * p[1] + 1e6 * p[0]; };
  neck.stress(state, [&](mesh::Piece, const Vec3 &p) {
    return materials::Vector6{linear(p), 0, 0, 0, 0, 0};
  });
  const auto mean = neck.work.means.stress(neck.work.model, state);
  double worst = 0;
  for (std::size_t b = 0; b < mean.size(); ++b)
    worst = std::max(worst, std::abs(mean[b][0] - linear(neck.work.means.boxes.box[b].place)));
  // Over a depth of 14 mm the stress changes by 1.4 MPa.
  EXPECT_LT(worst, 0.05 * 1.4e6);
  tests::report("Mean stress over a box", "linear stress, largest miss, MPa", "closed form", 0,
                worst / 1e6, 0.05 * 1.4);
}

// Source: size effect of bending, (50 mm/d)^(1/9) (glued timber's, from memory): the flat
// headstock, 13 mm deep, bent about its middle, against a test piece of 50 mm whose mean is 0.95.
TEST_P(StressMeansOn, BentPlankCountsAsStrongerByTheSizeEffect)
{
  const Neck neck(GetParam());
  const double depth = neck.c.neck.headstock.thickness;
  const double middle = -neck.c.neck.headstock.face_step - depth / 2;
  MechanicsState state = unstressed(neck.work.model);
  neck.stress(state, [&](mesh::Piece, const Vec3 &p) {
    return materials::Vector6{2e6 * (p[2] - middle) / depth, 0, 0, 0, 0, 0};
  });
  const auto mean = neck.work.means.stress(neck.work.model, state);
  double most = 0;
  // Away from its rounded sides, where it is less deep and a box smaller.
  for (std::size_t b = 0; b < mean.size(); ++b) {
    const Vec3 &place = neck.work.means.boxes.box[b].place;
    if (place[0] < -60e-3 && std::abs(place[1]) < 0.25 * neck.c.neck.headstock.width)
      most = std::max(most, std::abs(mean[b][0]));
  }
  EXPECT_NEAR(most, 1e6 * (1 - 2.5e-3 / depth), 1e3) << "closed form";
  const double stronger = 0.95e6 / most, expected = std::pow(50e-3 / depth, 1. / 9);
  EXPECT_NEAR(stronger, expected, 0.03);
  tests::report("Size effect of a bent plank", "strength against 50 mm depth, 13 mm deep",
                "(50 mm/d)^(1/9), from memory", expected, stronger, 0.03);
}

INSTANTIATE_TEST_SUITE_P(Meshes, StressMeansOn, ::testing::Values(0.5, 1.4));

// By hand with the Madison curve: 0.3 for two hours counts as 0.3/0.89, and what follows at less
// than that does not undo it.
TEST(Peaks, OfWoodCountTheTimeThatTheyHaveBeenHeld)
{
  const Neck neck;
  Peaks peaks(neck.work.model, materials::tables().limits);
  const auto note = [&](double time, double share) {
    Peak peak;
    peak.value = share;
    peak.time = time;
    peaks.note(Region::headstock_root, peak);
  };
  note(0, 0.3);
  const Peak &most = peaks.use.at(Region::headstock_root);
  EXPECT_DOUBLE_EQ(most.value, 0.3);
  note(7200, 0.3);
  EXPECT_NEAR(most.value, 0.3 / 0.89, 0.002);
  EXPECT_EQ(most.held, 7200);
  note(7200, 0.2);
  EXPECT_EQ(most.time, 7200);
  EXPECT_NEAR(most.value, 0.3 / 0.89, 0.002);
}

// A line of white PVA at 55 degC softens at 32: from half an hour on it bears less [E]; cold again
// it is as it was, and a network never does.
TEST(Peaks, OfABondKnowHowLongItHasBeenSoft)
{
  const Neck neck;
  Model model = build_model(neck.c, neck.mesh, materials::tables());
  MechanicsState state = unstressed(model);
  for (materials::GlueState &glue : state.glue)
    glue.branch[0] = {1e6, 0};
  const std::vector<double> hot(model.space.n_nodes, 328.15), cold(model.space.n_nodes, 293.15);
  const materials::WorkLimits &limits = materials::tables().limits;
  const auto watched = [&](const std::vector<std::vector<double>> &every_20_min) {
    Peaks peaks(model, limits);
    double time = 0;
    for (const std::vector<double> &temperature : every_20_min) {
      peaks.watch(model, neck.work.means, state, temperature, time, 0);
      time += 1200;
    }
    return peaks.use.at(Region::board_bond);
  };
  const Peak soft = watched({hot, hot, hot}), short_time = watched({hot, hot, cold});
  EXPECT_EQ(soft.hot_for, 2400);
  EXPECT_EQ(refused_from(Region::board_bond, soft, limits), limits.bond_use_hot);
  EXPECT_EQ(refused_from(Region::board_bond, short_time, limits), limits.wood_use_refuse);
  EXPECT_EQ(watched({hot, cold, hot}).hot_for, 0);
  model.glue_line[board_line].glue.plateau = 1e6;
  EXPECT_EQ(watched({hot, hot, hot}).hot_for, 0);
}
