// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/strips.h"

#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "tests/report.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// How the strips of a laminated shaft are laid over the points of a mesh.
namespace
{
using namespace overbend;

cases::Case neck_of(const std::string &strips)
{
  return cases::parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + strips, "strips");
}

const std::string five = R"([[lamination]]
width = "19 mm"
[[lamination]]
width = "3 mm"
run_out_depth = "5 %"
[[lamination]]
width = "12 mm"
[[lamination]]
width = "3 mm"
[[lamination]]
width = "19 mm"
)";

// Width of each strip as the points have it, over a stretch of shaft: volume over that of the shaft
// there, strip by strip, from bass to treble.
std::vector<double> shares(const cases::Case &c, double resolution, double from, double to)
{
  const auto mesh = mesh::make_neck_mesh(c.neck, resolution);
  const auto space = solver::make_space(mesh);
  const std::size_t n = c.neck.laminations.size();
  const auto strips =
      solver::lay_strips(space, mesh::NeckGrain(c.neck), std::vector<solver::PieceModel>(n));
  std::vector<double> x;
  for (const solver::Vec3 &place : space.position)
    x.push_back(place[0]);
  x = solver::at_points(space, x);
  std::vector<double> share(n, 0.);
  double all = 0;
  for (std::size_t p = 0; p < x.size(); ++p) {
    const unsigned wood = strips.wood_at_point[p];
    if (wood < solver::first_strip || x[p] < from || x[p] > to)
      continue;
    share[wood - solver::first_strip] += space.jxw[p];
    all += space.jxw[p];
  }
  for (double &s : share)
    s /= all;
  return share;
}
} // namespace

TEST(Strips, ShareOutThreePointsAsNearlyAsTheirWeightsAllow)
{
  using Points = std::array<unsigned, 3>;
  EXPECT_EQ(solver::share_out({1}), (Points{0, 0, 0}));
  EXPECT_EQ(solver::share_out({0.9, 0.1}), (Points{0, 0, 0}));
  EXPECT_EQ(solver::share_out({0.7, 0.3}), (Points{0, 0, 1}));
  EXPECT_EQ(solver::share_out({0.55, 0.45}), (Points{0, 1, 0}));
  EXPECT_EQ(solver::share_out({0.3, 0.7}), (Points{0, 1, 1}));
  EXPECT_EQ(solver::share_out({0.3, 0.4, 0.3}), (Points{0, 1, 2}));
  // No share is missed by more than half the least difference of sums of 5/18 and 8/18.
  for (double share = 0; share <= 1; share += 0.01) {
    double got = 0;
    const auto points = solver::share_out({share, 1 - share});
    for (unsigned k = 0; k < 3; ++k)
      if (points[k] == 0)
        got += k == 1 ? 8. / 18 : 5. / 18;
    EXPECT_LE(std::abs(got - share), 5. / 36 + 1e-12) << share;
  }
}

// The taper cuts the outer strips; no strip is lost, and both sides have the same. Expected: the
// same necks on a mesh four times as fine.
TEST(Strips, HaveTheirWidthOnTheDefaultMeshOfANeck)
{
  const cases::Case c = neck_of(five);
  const auto coarse = shares(c, 1, 0.02, 0.35), fine = shares(c, 4, 0.02, 0.35);
  ASSERT_EQ(coarse.size(), 5u);
  for (unsigned s = 0; s < 5; ++s) {
    EXPECT_NEAR(coarse[s], coarse[4 - s], 1e-12);
    constexpr double allowed =
        0.02; // 0.06 of a cell is 0.01 of the width, for each of its two lines
    EXPECT_NEAR(coarse[s], fine[s], allowed);
    tests::report("Strips of 19, 3, 12, 3 and 19 mm on the default mesh of a neck",
                  "share of strip " + std::to_string(s + 1) + " in the shaft",
                  "mesh four times as fine", fine[s], coarse[s], allowed);
  }
}

TEST(Strips, GiveEachPointItsWoodAndItsFrame)
{
  const cases::Case c = neck_of(five);
  const auto mesh = mesh::make_neck_mesh(c.neck, 0.5);
  const auto space = solver::make_space(mesh);
  const auto strips =
      solver::lay_strips(space, mesh::NeckGrain(c.neck), std::vector<solver::PieceModel>(5));
  ASSERT_EQ(strips.wood_at_point.size(), space.jxw.size());
  ASSERT_EQ(strips.frame_at_point.size(), space.jxw.size());
  ASSERT_EQ(strips.wood_at_middle.size(), space.n_cells);
  // Board; strips of the shaft's own grain; the second strip.
  EXPECT_EQ(strips.frame.size(), 3u);
  for (std::size_t p = 0; p < space.jxw.size(); ++p) {
    const auto piece = space.piece[p / solver::points_per_cell];
    const unsigned wood = strips.wood_at_point[p];
    if (piece == unsigned(mesh::Piece::board)) {
      EXPECT_EQ(wood, piece);
    } else {
      ASSERT_GE(wood, solver::first_strip);
      const double slope = wood == solver::first_strip + 1 ? 0.05 : 0;
      const auto &along = strips.frame[strips.frame_at_point[p]][0];
      EXPECT_NEAR(along[2] / along[0], slope, 1e-14);
    }
  }
}
