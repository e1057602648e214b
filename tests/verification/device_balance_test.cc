// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/device_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// Forces and torques that each device puts on the meshed neck, node by node, against statics done
// from the sizes of the case.
namespace overbend::tests
{
namespace
{
using cases::Device;
using solver::Vec3;

const char *const statics = "statics of the device, from the sizes of the case";

// Resultant of a row's nodal forces, and their moment about a point. The force of a pull of 1 N on
// the neck is minus its row.
struct Resultant
{
  Vec3 force{}, moment{};
  double tip = 0;
};

Resultant resultant(const solver::Model &model, const solver::Row &row, const Vec3 &about)
{
  Resultant r;
  for (const auto &[dof, coefficient] : row) {
    if (dof == model.tip_dof()) {
      r.tip += coefficient;
      continue;
    }
    Vec3 f{}, d = model.space.position[dof / 3];
    f[dof % 3] = -coefficient;
    for (unsigned i = 0; i < 3; ++i)
      d[i] -= about[i];
    for (unsigned i = 0; i < 3; ++i) {
      r.force[i] += f[i];
      r.moment[i] += d[(i + 1) % 3] * f[(i + 2) % 3] - d[(i + 2) % 3] * f[(i + 1) % 3];
    }
  }
  return r;
}

// Where the pull of 1 N acts and how far off the centre line, from the case alone; arm of a couple.
struct Place
{
  double x = 0, y = 0, arm = 0;
};

std::vector<Place> places(const cases::Case &c)
{
  // Posts of both sides: the middle of three; of six in line the third, 2/5 of the way. Cords go
  // over the edge of the headstock, half its width off, or down from the post if turned over.
  const double first = c.tuners.first_post, last = c.tuners.last_post;
  const double edge = c.bench.turned_over ? c.tuners.across / 2 : c.neck.headstock.width / 2;
  const cases::Bench &b = c.bench;
  switch (b.device) {
  case Device::posts:
    if (c.tuners.layout != cases::TunerLayout::both_sides)
      return {{-(first + 0.4 * (last - first)), -edge}};
    return {{-(first + last) / 2, -edge}, {-(first + last) / 2, edge}};
  case Device::strap:
    return {{b.strap_x}};
  case Device::headstock_bar:
    return {{-b.bar_place, -b.bar_arm}, {-b.bar_place, b.bar_arm}};
  case Device::strap_and_bar:
    return {{b.strap_x}, {-b.bar_place, 0, b.bar_arm}};
  case Device::caul:
    return {{b.caul_x}};
  }
  return {};
}

void expect_near(const std::string &what, const std::string &quantity, double expected, double got,
                 double tolerance)
{
  report(what, quantity, statics, expected, got, tolerance);
  EXPECT_NEAR(got, expected, tolerance) << what << ": " << quantity;
}
} // namespace

// A pad's and a strap's area is cut out of the mesh: its middle is off by what the cut is.
TEST(DeviceBalance, EachPullIsItsForceAndItsLeversOnTheMesh)
{
  for (const RiggedDevice &device : rigged_devices()) {
    const GuardNeck neck(device_case(device));
    const auto expected = places(neck.c);
    const auto &bench = neck.work.bench;
    ASSERT_EQ(bench.n_pulls(), expected.size()) << device.name;
    const double along = device.turned_over ? 1 : -1; // direction of the pull
    const Vec3 cradle{neck.c.bench.cradle_x, 0, 0};
    for (unsigned k = 0; k < expected.size(); ++k) {
      const Place &p = expected[k];
      const Resultant r = resultant(neck.work.model, bench.pull(k).row, cradle);
      const std::string what = device.name + ", " + bench.pull(k).name;
      if (p.arm > 0) {
        // Of 1 N in its spring each end has half.
        EXPECT_NEAR(r.force[2], 0, 1e-9) << what;
        expect_near(what, "torque of half a newton at each end, N m", along * p.arm, r.moment[0],
                    1e-9);
        EXPECT_EQ(r.tip, 0) << what;
        continue;
      }
      expect_near(what, "force of 1 N, N", along, r.force[2], 1e-9);
      EXPECT_NEAR(r.force[0], 0, 1e-9) << what;
      EXPECT_NEAR(r.force[1], 0, 1e-9) << what;
      expect_near(what, "torque about the neck's axis, N m", along * p.y, r.moment[0], 1e-6);
      // About y at the cradle: z f_x - x f_z.
      expect_near(what, "moment about the cradle, N m", -along * (p.x - cradle[0]), r.moment[1],
                  2e-5);
      const double pads = cases::fret_position(neck.c.neck.scale_length, neck.c.neck.join_fret) +
                          neck.c.bench.pad_distance;
      EXPECT_NEAR(r.tip, -along * (pads - p.x), 1e-6) << what;
    }
  }
}

// The body's turn on its pads is that of all moments: pulls and every point of the cradle.
TEST(DeviceBalance, TheHoldOfTheBodyTakesWhatPullsAndCradleLeave)
{
  for (const RiggedDevice &device : rigged_devices()) {
    DeviceNeck rigged(device);
    const double s = device.direction();
    const bool two = rigged.neck.work.bench.n_pulls() == 2;
    rigged.pull_to(s * 0.6e-3, two ? 0.002 : 0);
    const cases::Case &c = rigged.neck.c;
    const double pads =
        cases::fret_position(c.neck.scale_length, c.neck.join_fret) + c.bench.pad_distance;
    const auto expected = places(c);
    const double up = device.turned_over ? 1 : -1;
    double moment = 0;
    for (unsigned k = 0; k < expected.size(); ++k)
      if (expected[k].arm == 0)
        moment += up * rigged.forces.cord[k] * (pads - expected[k].x);
    for (const auto &spring :
         rigged.neck.work.bench.springs(rigged.setup, rigged.problem.offsets, 0))
      if (spring.role == solver::SpringRole::cradle) {
        const double f = solver::force(spring, rigged.displacement);
        const Resultant r = resultant(rigged.neck.work.model, spring.row, {pads, 0, 0});
        moment += f * r.moment[1];
      }
    EXPECT_GT(rigged.forces.cradle, 1) << device.name;
    expect_near(device.name, "moment on the body's pads, N m", moment,
                rigged.forces.tip * c.bench.pad_stiffness, 1e-4 * std::abs(moment) + 1e-6);
  }
}
} // namespace overbend::tests
