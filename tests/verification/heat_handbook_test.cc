// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/heat_block.h"

#include <gtest/gtest.h>

namespace overbend::tests
{
namespace
{
constexpr double inch = 0.0254;

// Minutes until the middle of a long piece of a by b inches reaches 56 degC. The surface is at
// 69 degC at once (steam condenses on it), the start is 16 degC.
double minutes_to_56(double a, double b)
{
  Block block;
  block.width = a * inch;
  block.depth = b * inch;
  block.across = block.down = 10;
  block.diffusivity = 1.47e-7;
  const solver::Model model = make_block(block);
  solver::HeatSurroundings surroundings;
  for (const auto face : {mesh::Face::board_top, mesh::Face::back})
    surroundings.film[id(face)] = {held, celsius(69)};
  const solver::HeatSystem system(model, surroundings);
  solver::HeatStepper stepper(system, start_from(model, surroundings, 16), 0);
  const solver::Sample middle = solver::find_point(model.space, {0, 0, -block.depth / 2});
  double last = 16, last_time = 0;
  for (const auto &m : run_heat(stepper, 6 * 3600, std::nullopt, {5, 600, 0.02})) {
    const double now = middle.value(m.temperature) - zero_celsius;
    if (now >= 56)
      return (last_time + (m.time - last_time) * (56 - last) / (now - last)) / 60;
    last = now;
    last_time = m.time;
  }
  return 1e9;
}
} // namespace

// Wood Handbook Table 20-4, sugar maple, by a copy of the table. The wood there is green; one
// diffusivity of 1.47e-7 m^2/s is the mean that fits these columns, so this checks conduction in
// two directions and the steps in time, not our own table of woods.
TEST(HandbookHeating, SugarMapleReachesFiftySixDegreesInTheMiddle)
{
  const struct
  {
    double a, b, handbook, product_solution;
  } pieces[] = {{1, 6, 13, 12.2}, {1.5, 6, 28, 27.4}, {2, 6, 48, 48.3},
                {3, 3, 58, 63.0}, {4, 4, 107, 111.9}, {6, 6, 255, 251.9}};
  for (const auto &p : pieces) {
    const double got = minutes_to_56(p.a, p.b);
    const std::string what = std::to_string(p.a).substr(0, 3) + " x " +
                             std::to_string(p.b).substr(0, 3) + " in, minutes to 56 degC";
    report("Heating table, sugar maple", what, "Wood Handbook Table 20-4 (copy)", p.handbook, got,
           0.1 * p.handbook);
    report("Heating table, a = 1.47e-7 m2/s", what, "product of two slabs, Carslaw & Jaeger 1959",
           p.product_solution, got, 0.005 * p.product_solution + 0.05);
    EXPECT_NEAR(got, p.handbook, 0.1 * p.handbook) << what;
    EXPECT_NEAR(got, p.product_solution, 0.005 * p.product_solution + 0.05) << what;
  }
}
} // namespace overbend::tests
