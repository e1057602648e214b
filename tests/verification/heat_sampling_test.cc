// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/layered_beam.h"

#include "solver/model/sampling.h"

#include <gtest/gtest.h>

#include <cmath>

namespace overbend::tests
{
namespace
{
// A two-layer beam with a curved back, so that cells are not boxes.
solver::Space curved_beam()
{
  mesh::LayeredBeam beam;
  beam.cells_along = 6;
  beam.back_exponent = 2.2;
  const mesh::NeckMesh mesh = mesh::make_layered_beam(beam);
  return solver::make_space(mesh);
}

std::vector<double> field(const solver::Space &space, double (*f)(const solver::Vec3 &))
{
  std::vector<double> nodal;
  for (const auto &p : space.position)
    nodal.push_back(f(p));
  return nodal;
}

double linear(const solver::Vec3 &p)
{
  return 3 + 20 * p[0] - 7 * p[1] + 11 * p[2];
}
} // namespace

// The cells are isoparametric, so they hold linear fields exactly wherever the point lies.
TEST(Sampling, PointsInCurvedCellsGiveLinearFieldsExactly)
{
  const solver::Space space = curved_beam();
  const auto nodal = field(space, linear);
  std::vector<double> vector(3 * nodal.size());
  for (std::size_t n = 0; n < nodal.size(); ++n)
    vector[3 * n + 2] = nodal[n];
  unsigned points = 0;
  for (double x = 0.011; x < 0.4; x += 0.031)
    for (double y = -0.024; y < 0.025; y += 0.0037)
      for (double z = -0.0145; z < 0.006; z += 0.0017) {
        if (z < 0 && std::pow(std::abs(y) / 0.025, 2.2) + std::pow(-z / 0.016, 2.2) > 0.999)
          continue;
        const solver::Sample sample = solver::find_point(space, {x, y, z});
        EXPECT_NEAR(sample.value(nodal), linear({x, y, z}), 1e-10) << x << " " << y << " " << z;
        EXPECT_NEAR(sample.component(vector, 2), linear({x, y, z}), 1e-10);
        ++points;
      }
  EXPECT_GT(points, 1000u);
}

TEST(Sampling, PointsSlightlyOutsideAreProjectedAndFarOnesAreNamed)
{
  const solver::Space space = curved_beam();
  const auto nodal = field(space, linear);
  const solver::Sample above = solver::find_point(space, {0.2, 0.003, 0.0075});
  EXPECT_NEAR(above.value(nodal), linear({0.2, 0.003, 0.006}), 1e-9);
  const solver::Sample before = solver::find_point(space, {-0.001, 0.003, 0.002});
  EXPECT_NEAR(before.value(nodal), linear({0, 0.003, 0.002}), 1e-9);
  try {
    solver::find_point(space, {0.2, 0.003, 0.0095});
    FAIL() << "a point 3.5 mm above the board was taken";
  } catch (const std::runtime_error &error) {
    EXPECT_NE(std::string(error.what()).find("z = 9.5 mm"), std::string::npos) << error.what();
  }
}

TEST(Sampling, FacePointsAreFoundFromAbove)
{
  const solver::Space space = curved_beam();
  const unsigned top = unsigned(mesh::Face::board_top), back = unsigned(mesh::Face::back);
  const auto nodal = field(space, linear);
  const auto height = field(space, [](const solver::Vec3 &p) { return p[2]; });
  for (double x = 0; x <= 0.4; x += 0.023)
    for (double y = -0.024; y <= 0.025; y += 0.006) {
      EXPECT_NEAR(solver::find_on_face(space, top, x, y).value(nodal), linear({x, y, 0.006}),
                  1e-10);
      const double depth = 0.016 * std::pow(1 - std::pow(std::abs(y) / 0.025, 2.2), 1 / 2.2);
      // The faces are quadratic, the back is not: their difference is the mesh's own.
      EXPECT_NEAR(solver::find_on_face(space, back, x, y).value(height), -depth, 0.15e-3) << y;
    }
  EXPECT_THROW(solver::find_on_face(space, top, 0.41, 0), std::runtime_error);
  EXPECT_THROW(solver::find_on_face(space, 99, 0.2, 0), std::runtime_error);
}
} // namespace overbend::tests
