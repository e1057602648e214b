// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/heat_block.h"

#include <gtest/gtest.h>

#include <cmath>

// Slabs and the half space: Carslaw & Jaeger 1959 and Heisler 1947 (from memory of these).
namespace overbend::tests
{
namespace
{
const char *source = "Carslaw & Jaeger 1959, Heisler 1947 (from memory)";

struct Expected
{
  double time, z, celsius;
};

// Runs a block from `start` and compares within 1 % of the rise from it.
void compare(const std::string &what, const solver::Model &model,
             const solver::HeatSurroundings &surroundings, double start,
             const std::vector<Expected> &expected)
{
  const solver::HeatSystem system(model, surroundings);
  solver::HeatStepper stepper(system, start_from(model, surroundings, start), 0);
  double y = 0, x = 1e300;
  for (const auto &p : model.space.position)
    x = std::min(x, p[0]);
  for (const Expected &e : expected) {
    if (e.time > stepper.time() + 1e-6)
      run_heat(stepper, e.time - stepper.time(), std::nullopt, fine_steps());
    const solver::Sample sample = solver::find_point(model.space, {x, y, e.z});
    const double got = sample.value(stepper.temperature()) - zero_celsius;
    const double tolerance = 0.01 * (e.celsius - start);
    report(what,
           "temperature (degC) at " + std::to_string(int(e.time)) + " s, " +
               std::to_string(int(std::lround(-1e3 * e.z))) + " mm",
           source, e.celsius, got, tolerance);
    EXPECT_NEAR(got, e.celsius, tolerance) << what << " " << e.time << " s, z " << e.z;
  }
}
} // namespace

TEST(HeatedSlab, HalfSpaceFollowsTheErrorFunction)
{
  Block block;
  block.depth = 0.16;
  block.down = 40;
  solver::HeatSurroundings surroundings;
  surroundings.film[id(mesh::Face::board_top)] = {held, celsius(50)};
  const double a = block.diffusivity;
  std::vector<Expected> expected;
  for (const double t : {600., 3600.})
    for (const double depth : {0.002, 0.005, 0.010, 0.020})
      expected.push_back({t, -depth, 20 + 30 * std::erfc(depth / std::sqrt(4 * a * t))});
  EXPECT_NEAR(expected[1].celsius, 41.282, 1e-3);
  EXPECT_NEAR(expected[7].celsius, 36.284, 1e-3);
  compare("Half space, surface held", make_block(block), surroundings, 20, expected);
}

TEST(HeatedSlab, HeatedOnOneFaceWithTheBackInsulated)
{
  solver::HeatSurroundings surroundings;
  surroundings.film[id(mesh::Face::board_top)] = {held, celsius(50)};
  compare("Slab 22 mm, one face held", make_block({}), surroundings, 20,
          {{300, -0.022, 21.224},
           {300, -0.011, 27.403},
           {600, -0.022, 26.063},
           {600, -0.011, 32.784},
           {1200, -0.022, 34.745},
           {1200, -0.011, 39.208},
           {1800, -0.022, 40.356},
           {1800, -0.011, 43.181},
           {3600, -0.022, 47.565},
           {3600, -0.011, 48.278}});
}

TEST(HeatedSlab, InMovingAirOnBothFaces)
{
  // Half the slab, its middle plane insulated; Bi = h L/k = 0.6875.
  Block block;
  block.depth = 0.011;
  block.down = 4;
  solver::HeatSurroundings surroundings;
  surroundings.film[id(mesh::Face::board_top)] = {10, celsius(48)};
  compare("Slab 22 mm in air, h = 10 W/(m2 K)", make_block(block), surroundings, 20,
          {{600, -0.011, 27.796},
           {600, 0, 33.150},
           {1800, -0.011, 39.155},
           {1800, 0, 41.499},
           {3600, -0.011, 45.438},
           {3600, 0, 46.117},
           {7200, -0.011, 47.785},
           {7200, 0, 47.842}});
}

TEST(HeatedSlab, HeldOnBothFacesAcross)
{
  // The same slab upright: its faces are sides of the block, the bottom (held too) is far away.
  Block block;
  block.width = 0.022;
  block.across = 8;
  block.depth = 1;
  block.down = 1;
  solver::HeatSurroundings surroundings;
  surroundings.film[id(mesh::Face::back)] = {held, celsius(50)};
  compare("Slab 22 mm, both faces held", make_block(block), surroundings, 20,
          {{300, -0.5, 34.745}, {600, -0.5, 43.905}, {1200, -0.5, 49.027}});
}

// A body of even temperature that only radiates: dT/dt = -eps sigma A (T^4 - Ta^4)/C has the
// implicit solution (ln((T+Ta)/(T-Ta)) + 2 atan(T/Ta))/(4 Ta^3) = eps sigma A t/C + constant.
TEST(Radiation, SmallHotBodyCoolsByTheFourthPowerLaw)
{
  Block block;
  block.depth = 0.01;
  block.down = 1;
  block.conductivity = 1e4;
  block.diffusivity = 1e4 / 1e6;
  const solver::Model model = make_block(block);
  const double air = celsius(20), start = celsius(90), emissivity = 0.9;
  solver::HeatSurroundings surroundings;
  surroundings.film[id(mesh::Face::board_top)] = {0, air, emissivity};
  const solver::HeatSystem system(model, surroundings);
  solver::HeatStepper stepper(system, std::vector<double>(system.size(), start), 0, 1e-5);
  const auto implicit = [&](double T) {
    return (std::log((T + air) / (T - air)) + 2 * std::atan(T / air)) / (4 * std::pow(air, 3));
  };
  for (const double time : {300., 1200., 3600.}) {
    run_heat(stepper, time - stepper.time(), std::nullopt, {1, 1e5, 0.002});
    const double target =
        implicit(start) + emissivity * solver::stefan_boltzmann / (1e6 * block.depth) * time;
    double low = air + 1e-9, high = start;
    for (int i = 0; i < 200; ++i)
      (implicit((low + high) / 2) > target ? low : high) = (low + high) / 2;
    report("Body that radiates", "temperature (K) at " + std::to_string(int(time)) + " s",
           "closed form of dT/dt = -c (T^4 - Ta^4)", low, stepper.temperature()[0], 0.02);
    EXPECT_NEAR(stepper.temperature()[0], low, 0.02);
  }
}
} // namespace overbend::tests
