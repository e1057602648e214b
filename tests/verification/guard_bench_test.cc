// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/make_neck_mesh.h"
#include "mesh/neck_profile.h"
#include "solver/model/build_model.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// The bench on a whole neck, cold and at once: sides, cords, cradle.
namespace overbend::tests
{
namespace
{
using solver::BenchOffsets;
using solver::BenchSetup;

BenchSetup on_cords()
{
  BenchSetup setup;
  setup.cords = true;
  setup.nut = false;
  return setup;
}

// Mean height of the headstock's face on one side of the centre line (-1 bass, +1 treble), m.
double height_of_headstock(const GuardNeck &neck, const std::vector<double> &displacement,
                           double side)
{
  double sum = 0;
  unsigned count = 0;
  for (const auto &n :
       solver::face_nodes(neck.work.model.space, unsigned(mesh::Face::headstock_face)))
    if (side * neck.work.model.space.position[n.node][1] > 1e-3) {
      sum += displacement[3 * n.node + 2];
      ++count;
    }
  return sum / count;
}
} // namespace

// Bass lies at negative y. A cord draws its own side down; positive twist is the treble side up.
TEST(GuardSides, ACordDrawsDownItsOwnSideAndItsForceIsReportedThere)
{
  GuardNeck neck;
  for (unsigned side = 0; side < 2; ++side) {
    BenchOffsets offsets;
    offsets.take_up[side] = 4e-3;
    const auto pulled = neck.at_once(on_cords(), offsets);
    const double sign = side == 0 ? 1 : -1;
    EXPECT_GT(pulled.forces.cord[side], 5);
    EXPECT_EQ(pulled.forces.cord[1 - side], 0);
    const double bass = height_of_headstock(neck, pulled.displacement, -1),
                 treble = height_of_headstock(neck, pulled.displacement, 1);
    EXPECT_LT(sign * bass, sign * treble);
    EXPECT_GT(sign * pulled.reading.twist, 0);
    // The line on the side of the cord goes further back.
    EXPECT_LT(sign * pulled.reading.bow_bass, sign * pulled.reading.bow_treble);
    std::printf("%s cord: %.1f N, twist %.4f deg, bows %.4f %.4f %.4f mm\n",
                side == 0 ? "bass" : "treble", pulled.forces.cord[side],
                pulled.reading.twist * 57.2958, 1e3 * pulled.reading.bow_bass,
                1e3 * pulled.reading.bow, 1e3 * pulled.reading.bow_treble);
  }
}

// Cord and neck are springs in series: F = take-up / (1/k + C), k as the case says, C the
// compliance of the neck at the post under a dead load.
TEST(GuardCords, StretchInSeriesWithTheNeck)
{
  GuardNeck neck;
  const solver::Row &post = neck.work.bench.cord_row(0);
  std::vector<double> load(neck.work.model.n_unknowns(), 0.);
  solver::add_times(post, -10, load);
  BenchSetup bare;
  bare.nut = false;
  const auto dead = neck.at_once(bare, {}, load);
  const double compliance = -solver::evaluate(post, dead.displacement) / 10;
  BenchOffsets offsets;
  offsets.take_up[0] = 4e-3;
  const auto pulled = neck.at_once(on_cords(), offsets);
  const double expected = 4e-3 / (1 / neck.c.bench.cord_stiffness + compliance);
  report("Cord of the bench", "force by 4 mm of take-up, N", "springs in series", expected,
         pulled.forces.cord[0], 1e-4 * expected);
  EXPECT_NEAR(pulled.forces.cord[0], expected, 1e-4 * expected);
}

// Strings lift the neck off a cradle that was only touching: a pad does not pull.
TEST(GuardCradle, LetsGoOfANeckThatLiftsOff)
{
  GuardNeck neck;
  BenchSetup setup;
  setup.nut = false;
  setup.strings = &neck.work.planned_strings;
  const auto free = neck.at_once(setup, {});
  setup.cradle = true;
  const auto over_cradle = neck.at_once(setup, {});
  report("Cradle under a neck that lifts off", "force, N", "a pad does not pull", 0,
         over_cradle.forces.cradle, 1e-6);
  EXPECT_NEAR(over_cradle.forces.cradle, 0, 1e-6);
  EXPECT_NEAR(over_cradle.reading.bow, free.reading.bow, 1e-5 * std::abs(free.reading.bow));
  // The same pad bears when cords draw the neck onto it.
  setup.strings = nullptr;
  setup.cords = true;
  BenchOffsets offsets;
  offsets.take_up = {4e-3, 4e-3};
  EXPECT_GT(neck.at_once(setup, offsets).forces.cradle, 10);
}

namespace
{
// Breadth of the back that looks down by at least half, by its superellipse: |y/a|^n + |z/d|^n = 1
// with a slope of tan 60 deg at its end.
double bearing_breadth(const cases::NeckShape &neck, double x)
{
  const mesh::NeckProfile profile(neck);
  const double a = profile.half_width(x), d = profile.depth(x), n = neck.back_exponent;
  const auto slope = [&](double s) { // of the back at y = s a
    return d / a * std::pow(s, n - 1) * std::pow(1 - std::pow(s, n), 1 / n - 1);
  };
  double low = 0, high = 1;
  for (unsigned i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (slope(middle) < std::tan(std::acos(-1.) / 3) ? low : high) = middle;
  }
  return 2 * a * low;
}

// Of a neck's cradle, N/m; `x` is its middle.
double cradle_stiffness(const cases::Case &c, const solver::Model &model)
{
  BenchSetup setup;
  setup.cradle = true;
  double sum = 0;
  for (const solver::Spring &s : solver::Bench(c, model, materials::tables()).springs(setup, {}, 0))
    sum += s.name == "cradle" ? s.stiffness : 0;
  return sum;
}
} // namespace

// The pad is as stiff as it is long and the back broad over it, on any mesh, and a cradle moved by
// a millimetre is nearly the same cradle.
TEST(GuardCradle, IsAsStiffOnAnyMeshAndDoesNotJumpWhenItIsMoved)
{
  for (const double resolution : {0.5, 1., 1.6}) {
    cases::Case c = guard_case();
    const mesh::NeckMesh mesh = mesh::make_neck_mesh(c.neck, resolution);
    const solver::Model model = solver::build_model(c, mesh, materials::tables(), {});
    const double start = c.bench.cradle_x;
    double before = 0, most = 0;
    for (const double along : {12e-3, 50e-3, 80e-3}) {
      c.bench.cradle_width = along;
      for (unsigned i = 0; i < 20; ++i) {
        c.bench.cradle_x = start + 1e-3 * i;
        const double expected =
            c.bench.cradle_pad * along * bearing_breadth(c.neck, c.bench.cradle_x);
        const double got = cradle_stiffness(c, model);
        if (i == 0)
          report("Cradle of " + std::to_string(int(1e3 * along)) + " mm on a neck, mesh " +
                     std::to_string(resolution).substr(0, 3),
                 "stiffness, N/m", "pad times the breadth that looks down (superellipse)", expected,
                 got, 0.02 * expected);
        EXPECT_NEAR(got / expected, 1, 0.02) << resolution << " " << along << " " << i;
        if (i > 0)
          most = std::max(most, std::abs(got / before - 1));
        before = got;
      }
    }
    std::printf("mesh %.1f: most by a millimetre %.4f\n", resolution, most);
    EXPECT_LT(most, 0.005);
  }
}

// A two-way rod bows the neck the way it is told to, alike both ways.
TEST(GuardRod, TwoWayItBowsTheNeckBackOrForwardAsTold)
{
  double bow[2];
  for (const unsigned k : {0U, 1U}) {
    GuardNeck neck(guard_case(std::string("[rod]\nkind = \"two-way\"\nforce = \"500 N\"\n") +
                              (k == 0 ? "" : "bows = \"forward\"\n")));
    BenchSetup setup;
    setup.nut = false;
    setup.rod = cases::RodState::set;
    setup.rod_is_dead_load = true;
    bow[k] = neck.at_once(setup, {}).reading.bow;
  }
  std::printf("bow by a two-way rod: back %.4f mm, forward %.4f mm\n", 1e3 * bow[0], 1e3 * bow[1]);
  EXPECT_LT(bow[0], -0.05e-3);
  EXPECT_NEAR(bow[1], -bow[0], 1e-4 * std::abs(bow[0]));
}
} // namespace overbend::tests
