// SPDX-License-Identifier: GPL-3.0-or-later
// What a straightedge sees of a displacement: bow and twist, not where the neck as a whole went.
#include "viz/run/edge_frame.h"
#include "cases/read/read_case.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace overbend;

namespace
{
constexpr double length = 0.48, half_width = 0.025, thickness = 0.02;
constexpr int along = 97;

// Nodes of a straight bar whose top is at z = 0.
solver::MeshData bar()
{
  solver::MeshData mesh;
  for (int i = 0; i < along; ++i)
    for (const double y : {-half_width, 0., half_width})
      for (const double z : {-thickness, 0.})
        for (const double place : {length * i / (along - 1), y, z})
          mesh.nodes.push_back(place);
  return mesh;
}

// Of each node, from its place.
template <typename Displacement>
std::vector<double> displaced(const solver::MeshData &mesh, const Displacement &displacement)
{
  std::vector<double> u;
  for (std::size_t n = 0; n < mesh.nodes.size(); n += 3)
    for (const double d : displacement(mesh.nodes[n], mesh.nodes[n + 1], mesh.nodes[n + 2]))
      u.push_back(d);
  return u;
}

using Three = std::array<double, 3>;

cases::Case a_case()
{
  cases::Case c = cases::preset_case("electric");
  c.found.rest_fret_a = 1;
  c.found.rest_fret_b = 16;
  return c;
}
} // namespace

TEST(EdgeFrame, AMotionAsAWholeIsNotSeen)
{
  const solver::MeshData mesh = bar();
  const viz::EdgeFrame frame(mesh, a_case());
  const Three shift = {1e-3, -2e-3, 3e-3}, turn = {4e-3, -5e-3, 6e-3};
  const auto u = displaced(mesh, [&](double x, double y, double z) {
    return Three{shift[0] + turn[1] * z - turn[2] * y, shift[1] + turn[2] * x - turn[0] * z,
                 shift[2] + turn[0] * y - turn[1] * x};
  });
  for (const double left : frame.without(frame.motion(u), mesh.nodes, u))
    EXPECT_NEAR(left, 0, 1e-12);
}

// A parabola between the rest frets, carried away as a whole: it is left, and the rest frets lie
// where they lay.
TEST(EdgeFrame, BowIsLeftAndTheRestFretsStay)
{
  const solver::MeshData mesh = bar();
  const cases::Case c = a_case();
  const viz::EdgeFrame frame(mesh, c);
  const double a = cases::fret_position(c.neck.scale_length, 1),
               b = cases::fret_position(c.neck.scale_length, 16), bow = 1.3e-3;
  const auto u = displaced(mesh, [&](double x, double, double) {
    return Three{0, 0, -4 * bow * (x - a) * (b - x) / ((b - a) * (b - a)) + 7e-3 - 0.02 * x};
  });
  const auto seen = frame.without(frame.motion(u), mesh.nodes, u);
  for (std::size_t n = 0; n < mesh.nodes.size(); n += 3)
    if (mesh.nodes[n + 2] == 0) {
      const double x = mesh.nodes[n];
      // Between nodes the line is straight: 5 mm apart, 0.1 % of the bow.
      EXPECT_NEAR(seen[n + 2], -4 * bow * (x - a) * (b - x) / ((b - a) * (b - a)), 2e-3 * bow) << x;
    }
}

TEST(EdgeFrame, TwistIsSeenAgainstTheRestFretNearTheBody)
{
  const solver::MeshData mesh = bar();
  const viz::EdgeFrame frame(mesh, a_case());
  const double twist = 0.01; // rad a metre, treble up towards the nut
  const auto u = displaced(mesh, [&](double x, double y, double) {
    return Three{0, 0, (0.03 - twist * x) * y};
  });
  const auto seen = frame.without(frame.motion(u), mesh.nodes, u);
  for (std::size_t n = 0; n < mesh.nodes.size(); n += 3)
    if (mesh.nodes[n + 2] == 0 && mesh.nodes[n + 1] > 0) {
      const double to_body = frame.near_body()[0] - mesh.nodes[n];
      EXPECT_NEAR(seen[n + 2], twist * to_body * half_width, 2e-6); // a node beside the fret
    }
}
