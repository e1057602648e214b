// SPDX-License-Identifier: GPL-3.0-or-later
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
} // namespace overbend::tests
