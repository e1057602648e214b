// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/bench_beam.h"

#include <gtest/gtest.h>

#include <cmath>

// What bears and stops on the bench: body pads that tip, the block under the headstock, the nut.
namespace overbend::tests
{
namespace
{
using solver::BenchOffsets;
using solver::BenchSetup;

constexpr double modulus = 13.86e9, width = 0.05, depth = 0.0218, length = 0.4;
const double EI = modulus * width * std::pow(depth, 3) / 12;
constexpr double cord_stiffness = 3e4, take_up = 4e-3;
constexpr double block_stiffness = 5e6; // as bench.cc has it

BenchBeam beam_on(cases::BodyHold hold, double pad_stiffness, double pad_distance,
                  const std::function<void(cases::Case &)> &more = {})
{
  mesh::LayeredBeam shape;
  shape.board_thickness = 0;
  shape.width = width;
  shape.shaft_depth = depth;
  shape.length = length;
  const materials::Wood wood = rigid_in_shear(modulus);
  return {shape, {wood, wood, {}}, [&](cases::Case &c) {
            c.bench.hold = hold;
            c.bench.pad_stiffness = pad_stiffness;
            c.bench.pad_distance = pad_distance;
            c.bench.cord_stiffness = cord_stiffness;
            if (more)
              more(c);
          }};
}

// Of the headstock against the body, m/N: a cantilever on a joint that gives a little.
double compliance(const BenchBeam &b)
{
  return std::pow(length, 3) / (3 * EI) + length * length * b.joint_give();
}

BenchSetup on_cords()
{
  BenchSetup setup = bare_bench();
  setup.cords = true;
  return setup;
}

double headstock(const BenchBeam &b)
{
  return solver::evaluate(b.beam.lift(0), b.displacement);
}
} // namespace

// The moment of the cords about the pads is M = F (length + pad distance); the body turns by M/k,
// and the cords have so much less to stretch.
TEST(Pads, TipByTheMomentOverTheirStiffness)
{
  for (const double pad_stiffness : {2e3, 2e4}) {
    constexpr double distance = 0.15, lever = length + distance;
    BenchBeam rigid = beam_on(cases::BodyHold::rigid, pad_stiffness, distance),
              tipping = beam_on(cases::BodyHold::pads, pad_stiffness, distance);
    BenchOffsets offsets;
    offsets.take_up = {take_up, take_up};
    double force[2], bend[2];
    for (const unsigned k : {0U, 1U}) {
      BenchBeam &b = k == 0 ? rigid : tipping;
      b.at_once(on_cords(), offsets);
      const auto forces = b.forces();
      force[k] = forces.cord[0] + forces.cord[1];
      bend[k] = headstock(b);
      const double pads = k == 0 ? 0 : lever * lever / pad_stiffness;
      const double expected = take_up / (0.5 / cord_stiffness + compliance(b) + pads);
      const std::string what =
          k == 0 ? "Body held rigidly"
                 : "Body on pads of " + std::to_string(int(pad_stiffness)) + " N m/rad";
      report(what, "pull of both cords, N", "springs in series, cantilever", expected, force[k],
             5e-3 * expected);
      EXPECT_NEAR(force[k] / expected, 1, 5e-3);
      const double turn = k == 0 ? 0 : -force[k] * lever / pad_stiffness;
      report(what, "turn of the body, rad", "M / k", turn, forces.tip, 2e-6);
      // Rigid is 1e8 N m/rad.
      EXPECT_NEAR(forces.tip, turn, k == 0 ? 2e-6 : 1e-5 * std::abs(turn));
    }
    // What the neck itself does follows the pull alone.
    EXPECT_NEAR(bend[1] / bend[0], force[1] / force[0], 1e-5);
  }
}

// Two things bear on one body: the turn is that of both moments.
TEST(Pads, TurnByAllMomentsTogetherWithTheCradleUnderTheNeck)
{
  constexpr double distance = 0.15, pad_stiffness = 4e3;
  BenchBeam b = beam_on(cases::BodyHold::pads, pad_stiffness, distance);
  BenchSetup setup = on_cords();
  setup.cradle = true;
  BenchOffsets offsets;
  offsets.take_up = {take_up, take_up};
  b.at_once(setup, offsets);
  const auto forces = b.forces();
  EXPECT_GT(forces.cradle, 10);
  // The pad's forces act where its springs stand: their rows tip the body by their lever.
  double moment = -(forces.cord[0] + forces.cord[1]) * (length + distance);
  for (const solver::Spring &s : b.springs)
    if (s.name == "cradle") {
      ASSERT_EQ(s.row.back().first, b.beam.model.tip_dof());
      moment += solver::force(s, b.displacement) * -s.row.back().second;
    }
  report("Body on pads, cords and cradle", "turn of the body, rad", "balance of moments",
         moment / pad_stiffness, b.forces().tip, 1e-5 * std::abs(moment / pad_stiffness));
  EXPECT_NEAR(b.forces().tip, moment / pad_stiffness, 1e-5 * std::abs(moment / pad_stiffness));
}

namespace
{
// Sum of a cradle's springs, N/m, and where along the neck it acts, m.
struct PadOfSprings
{
  double stiffness = 0, centre = 0;
};
PadOfSprings pad_of(const BenchBeam &b)
{
  BenchSetup setup = bare_bench();
  setup.cradle = true;
  PadOfSprings pad;
  for (const solver::Spring &s : b.bench->springs(setup, {}, 0))
    if (s.name == "cradle") {
      EXPECT_GT(s.stiffness, 0);
      EXPECT_TRUE(s.one_sided);
      double down = 0, x = 0; // a unit of fall of the back, and where it is
      for (const auto &[unknown, share] : s.row)
        if (unknown != b.beam.model.tip_dof()) {
          down -= share;
          x -= share * b.beam.model.space.position[unknown / 3][0];
        }
      EXPECT_NEAR(down, 1, 1e-12);
      pad.stiffness += s.stiffness;
      pad.centre += s.stiffness * x;
    }
  pad.centre /= pad.stiffness;
  return pad;
}
} // namespace

// A pad bears as stiffly as it is long and broad, about its middle, wherever it lies between the
// nodes and however many there are: cells of 13 to 40 mm here, pads of 5 to 120 mm.
TEST(Cradle, HasTheStiffnessOfItsAreaAndItsMiddleWhateverTheCells)
{
  constexpr double pad = 2e9;
  for (const unsigned cells : {10U, 17U, 32U})
    for (const double along : {5e-3, 20e-3, 50e-3, 120e-3})
      for (const double x : {0.2, 0.2063, 0.2125}) {
        mesh::LayeredBeam shape;
        shape.board_thickness = 0;
        shape.width = width;
        shape.shaft_depth = depth;
        shape.length = length;
        shape.cells_along = cells;
        const materials::Wood wood = rigid_in_shear(modulus);
        const BenchBeam b(shape, {wood, wood, {}}, [&](cases::Case &c) {
          c.bench.cradle_pad = pad;
          c.bench.cradle_width = along;
          c.bench.cradle_x = x;
        });
        const PadOfSprings got = pad_of(b);
        const double expected = pad * along * width;
        report("Cradle with a pad of " + std::to_string(int(1e3 * along)) + " mm, " +
                   std::to_string(cells) + " cells",
               "stiffness, N/m", "pad times area", expected, got.stiffness, 1e-6 * expected);
        EXPECT_NEAR(got.stiffness / expected, 1, 1e-6);
        EXPECT_NEAR(got.centre, x, 1e-7);
      }
}

// Pressure is the pad's stiffness times how far the back comes down, its force the integral of it
// over the area.
TEST(Cradle, BearsTheIntegralOfItsPressureAndReadsTheLargest)
{
  constexpr double pad = 2e8, along = 0.05, load = 40;
  BenchBeam b = beam_on(cases::BodyHold::rigid, 0, 0.1, [&](cases::Case &c) {
    c.bench.cradle_pad = pad;
    c.bench.cradle_width = along;
    c.bench.cradle_x = along / 2; // under the headstock's end: two cells
  });
  BenchSetup setup = bare_bench();
  setup.cradle = true;
  std::vector<double> down = b.beam.no_load();
  solver::add_times(b.beam.lift(along / 2), -load, down);
  b.at_once(setup, {}, down);
  const double simpson[5] = {1, 4, 2, 4, 1};
  double integral = 0, deepest = 0;
  for (unsigned i = 0; i < 5; ++i) {
    const double w = -solver::evaluate(b.beam.lift(along / 4 * i), b.displacement);
    EXPECT_GT(w, 0);
    // Of the section's mean: pressed, the back goes a little less or more.
    integral += along / 12 * simpson[i] * w;
    deepest = std::max(deepest, w);
  }
  const auto forces = b.forces();
  EXPECT_GT(forces.cradle, 0.5 * load);
  report("Cradle under a beam", "force, N", "pad times integral of the way down (Simpson)",
         pad * width * integral, forces.cradle, 3e-3 * forces.cradle);
  EXPECT_NEAR(forces.cradle, pad * width * integral, 3e-3 * forces.cradle);
  report("Cradle under a beam", "largest pressure, Pa", "pad times the way down", pad * deepest,
         forces.cradle_pressure, 0.01 * pad * deepest);
  EXPECT_NEAR(forces.cradle_pressure, pad * deepest, 0.01 * pad * deepest);
}

// A block `height` below the headstock bears nothing until the headstock has come down to it, then
// all that is more; and it cannot pull.
TEST(StopBlock, BearsOnlyWhatWouldBringTheHeadstockBelowIt)
{
  constexpr double height = 2e-3;
  BenchBeam b = beam_on(cases::BodyHold::rigid, 0, 0.1);
  BenchSetup setup = bare_bench();
  setup.block = true;
  BenchOffsets offsets;
  offsets.block = -height;
  const double C = compliance(b), reaches = height / C;
  for (const double share : {-1., 0.9, 1.5, 3.}) {
    std::vector<double> load = b.beam.no_load();
    solver::add_times(b.beam.lift(0), -share * reaches, load);
    b.at_once(setup, offsets, load);
    const double bears = share < 1 ? 0 : (share * reaches * C - height) / (C + 1 / block_stiffness);
    const double down = share < 1 ? share * height : height + bears / block_stiffness;
    const std::string what =
        "Stop block, load " + std::to_string(share).substr(0, 4) + " of what reaches it";
    report(what, "displacement of the headstock, mm", "cantilever with a stop", 1e3 * down,
           -1e3 * headstock(b), 0.005 * 1e3 * std::abs(down));
    EXPECT_NEAR(-headstock(b), down, 0.005 * std::abs(down));
    report(what, "force on the block, N", "cantilever with a stop", bears, b.forces().block,
           0.01 * reaches);
    EXPECT_NEAR(b.forces().block, bears, 0.01 * reaches);
    if (share < 1) {
      EXPECT_EQ(b.forces().block, 0);
    }
  }
}

// Pushed up to the headstock after the pull, it takes over as the cords are drawn further, and the
// headstock comes off it when they are let go.
TEST(StopBlock, PutUnderThePulledHeadstockItStaysThere)
{
  BenchBeam b = beam_on(cases::BodyHold::rigid, 0, 0.1);
  BenchSetup setup = on_cords();
  BenchOffsets offsets;
  offsets.take_up = {take_up, take_up};
  b.at_once(setup, offsets);
  const double pulled = headstock(b), pull = b.forces().cord[0] + b.forces().cord[1];
  b.bench->place_block(b.displacement, offsets);
  setup.block = true;
  b.at_once(setup, offsets);
  EXPECT_NEAR(b.forces().block, 0, 1e-3 * pull);
  EXPECT_NEAR(headstock(b), pulled, 1e-5 * std::abs(pulled));
  // The cords drawn by 1 mm more, which the block takes: the neck stays where it is.
  offsets.take_up = {take_up + 1e-3, take_up + 1e-3};
  b.at_once(setup, offsets);
  const double more = 1e-3 / (1 / (2 * cord_stiffness) + 1 / (block_stiffness + 1 / compliance(b)));
  const double cords = b.forces().cord[0] + b.forces().cord[1] - pull;
  report("Stop block under a pulled headstock", "pull of the cords by 1 mm more, N",
         "springs in series", more, cords, 0.005 * more);
  EXPECT_NEAR(cords / more, 1, 0.005);
  EXPECT_NEAR(b.forces().block / cords, 1, 0.01);
  EXPECT_NEAR(headstock(b), pulled, 1.01 * cords / block_stiffness);
  setup.cords = false;
  b.at_once(setup, offsets);
  EXPECT_EQ(b.forces().block, 0);
  EXPECT_NEAR(headstock(b), 0, 1e-4 * std::abs(pulled));
}

namespace
{
// A board on a soft line over a shaft that hardly gives; the nut's bearing stops its end.
constexpr double board = 0.006, glue_modulus = 1e5, glue_thickness = 1e-4, growth = 5e-6;

BenchBeam beam_with_nut(double nut_stiffness)
{
  mesh::LayeredBeam shape;
  shape.board_thickness = board;
  shape.shaft_depth = 0.02;
  shape.width = width;
  shape.length = length;
  shape.end_cell = 4e-3;
  shape.cells_along = 24;
  BeamMaterials m{rigid_in_shear(modulus), rigid_in_shear(1e3 * modulus),
                  elastic_glue(glue_modulus), glue_thickness};
  m.board.expansion = {growth, 0, 0};
  return {shape, m, [&](cases::Case &c) { c.bench.nut_stiffness = nut_stiffness; }};
}

// A bar on springs along it, k_s a length, that would grow by `strain`: u'' = l^2 u with
// l^2 = k_s / EA; no force at the far end, EA (u' - strain) = k u at the nut. Returns the force on
// the nut, and the way of the board's end towards it.
struct BoardEnd
{
  double force, out;
};
BoardEnd board_end(double strain, double nut_stiffness)
{
  const double EA = modulus * width * board;
  const double l = std::sqrt(glue_modulus / glue_thickness * width / EA);
  // u = A cosh lx + B sinh lx with B = (EA strain + k A) / (EA l) from the nut's end.
  const double ch = std::cosh(l * length), sh = std::sinh(l * length);
  const double A = strain * (1 - ch) / (l * sh + nut_stiffness / EA * ch);
  return {-nut_stiffness * A, -A};
}

double way_to_the_nut(const BenchBeam &b)
{
  const auto &u = b.displacement;
  return u[3 * b.beam.node(0, 0, 0)] - u[3 * b.beam.node(0, 0, 0, true)];
}
} // namespace

TEST(Nut, StopsAWarmBoardThatGrowsAgainstIt)
{
  constexpr double warmth = 30;
  for (const double nut_stiffness : {1e7, 1e8}) {
    BenchBeam b = beam_with_nut(nut_stiffness);
    BenchSetup setup = bare_bench();
    setup.nut = true;
    b.at_once(setup, {}, {}, warmth);
    const BoardEnd expected = board_end(growth * warmth, nut_stiffness);
    report("Nut before a warm board", "force on the nut, N",
           "bar on springs along it with a stop (own algebra)", expected.force, b.forces().nut,
           0.02 * expected.force);
    EXPECT_GT(expected.force, 50);
    EXPECT_NEAR(b.forces().nut / expected.force, 1, 0.02);
  }
}

TEST(Nut, OutOfItsSlotTheBoardComesThrough)
{
  constexpr double warmth = 30;
  BenchBeam b = beam_with_nut(1e8);
  b.at_once(bare_bench(), {}, {}, warmth);
  EXPECT_EQ(b.forces().nut, 0);
  const double expected = board_end(growth * warmth, 0).out;
  report("Warm board without a nut", "way of its end, mm", "bar on springs along it (own algebra)",
         1e3 * expected, 1e3 * way_to_the_nut(b), 0.02 * 1e3 * expected);
  EXPECT_NEAR(way_to_the_nut(b) / expected, 1, 0.02);
  // Told to have no stiffness, the nut is out as well.
  BenchBeam none = beam_with_nut(0);
  BenchSetup setup = bare_bench();
  setup.nut = true;
  none.at_once(setup, {}, {}, warmth);
  EXPECT_NEAR(way_to_the_nut(none), way_to_the_nut(b), 1e-5 * expected);
}

TEST(Nut, LetsTheBoardLeave)
{
  BenchBeam b = beam_with_nut(1e8);
  BenchSetup setup = bare_bench();
  setup.nut = true;
  b.at_once(setup, {}, {}, -30);
  EXPECT_EQ(b.forces().nut, 0);
  const double expected = board_end(-30 * growth, 0).out;
  report("Cold board that leaves the nut", "way of its end, mm",
         "bar on springs along it (own algebra)", 1e3 * expected, 1e3 * way_to_the_nut(b),
         0.02 * 1e3 * std::abs(expected));
  EXPECT_LT(expected, -1e-6);
  EXPECT_NEAR(way_to_the_nut(b) / expected, 1, 0.02);
}
} // namespace overbend::tests
