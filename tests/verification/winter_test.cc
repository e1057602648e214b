// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/fine_tolerance.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <utility>

// A winter of 180 days in a dry and in a damp house (the two shipped cases, on half the default
// resolution), from the neck as built, without strings or clamps. There is no outside value for
// what bow and twist then do: the rows say so, have the other winter beside them and no tolerance.
// What is claimed is only what symmetry and rest demand.
namespace overbend::tests
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
// As both cases have it.
constexpr double built_temperature = 293.15, built_humidity = 0.47;

struct Winter
{
  double bow = 0, twist = 0;       // m, rad: at the end, from the first reading
  double most_bow = 0, widest = 0; // the bow and the twist that are farthest from the first one
};

using Change = std::function<void(cases::Case &)>;

Winter winter(const std::string &name, const Change &change)
{
  cases::Case c = shipped_case(name, 0.5);
  change(c);
  PlanNeck neck(c);
  const auto heat = solver::heat_of(neck.work, c.phases);
  const auto moisture = solver::moisture_of(neck.work, c.phases, heat);
  solver::SimulationOptions options;
  options.bow_error = c.numerics.bow_error;
  options.moisture = &moisture;
  neck.work.mechanics.tolerance = fine_tolerance;
  const auto history = solver::simulate(neck.work.neck(), c.phases, neck.work.planned_strings, heat,
                                        neck.unstressed(), options);
  const solver::Reading first = history.phases.front().reading_at_start;
  Winter result;
  for (const solver::StepRecord &step : history.steps) {
    result.bow = step.reading.bow - first.bow;
    result.twist = step.reading.twist - first.twist;
    if (std::abs(result.bow) > std::abs(result.most_bow))
      result.most_bow = result.bow;
    if (std::abs(result.twist) > std::abs(result.widest))
      result.widest = result.twist;
  }
  return result;
}

// Rings at an angle to the board in all pieces.
Change rings(double angle)
{
  return [angle](cases::Case &c) {
    for (cases::Piece *piece : {&c.neck.shaft, &c.neck.board, &c.neck.headstock.piece})
      piece->grain.ring_angle = angle;
  };
}

// Grain of the case, the shaft's running out towards one side.
Change run_out(double slope)
{
  return [slope](cases::Case &c) { c.neck.shaft.grain.run_out_across = slope; };
}

// Grain of the case, swelling along it uneven within shaft and board.
Change blank(int seed)
{
  return [seed](cases::Case &c) {
    c.scatter.variation = 0.6;
    c.scatter.seed = seed;
  };
}

// The air of the shop that built the neck, all winter.
void at_rest(cases::Case &c)
{
  c.room.temperature = built_temperature;
  for (cases::Phase &phase : c.phases)
    for (auto &point : phase.climate.points) {
      point.temperature = built_temperature;
      point.humidity = built_humidity;
    }
}

// One row a quantity; the other winter stands where an expected value would.
void row(const std::string &what, const char *house, const Winter &here, const Winter &other)
{
  constexpr double no_claim = std::numeric_limits<double>::infinity();
  const std::string title = "Winter of 180 days in a " + std::string(house) + " house, " + what;
  const char *source = "no outside value, no claim; beside it the other winter [C]";
  report(title, "bow at the end, mm", source, 1e3 * other.bow, 1e3 * here.bow, no_claim);
  report(title, "bow farthest from the start, mm", source, 1e3 * other.most_bow,
         1e3 * here.most_bow, no_claim);
  report(title, "twist at the end, deg", source, other.twist / degree, here.twist / degree,
         no_claim);
  report(title, "twist farthest from the start, deg", source, other.widest / degree,
         here.widest / degree, no_claim);
}

// dry, damp
std::array<Winter, 2> both(const std::string &what, const Change &change)
{
  const std::array<Winter, 2> result = {winter("dry-shop", change), winter("damp-shop", change)};
  row(what, "dry", result[0], result[1]);
  row(what, "damp", result[1], result[0]);
  return result;
}

// Mesh, loads and air are symmetric, so only round-off and the equation solver are in the way.
void expect_mirrored(const std::string &what, const Winter &one, const Winter &image)
{
  constexpr double share = 1e-6;
  EXPECT_GT(std::abs(one.widest), 0.01 * degree) << what;
  report(what, "twist farthest from the start, deg", "symmetry: the mirrored grain",
         -image.widest / degree, one.widest / degree, share * std::abs(one.widest) / degree);
  EXPECT_NEAR(one.widest, -image.widest, share * std::abs(one.widest)) << what;
  EXPECT_NEAR(one.twist, -image.twist, share * std::abs(one.widest)) << what;
  EXPECT_NEAR(one.bow, image.bow, share * std::abs(one.most_bow)) << what;
}

// Swelling across the grain is linear in moisture, and the one house stays drier, the other damper
// than where the neck was built, all winter.
void expect_opposite_twist(const std::string &what, const std::array<Winter, 2> &houses)
{
  EXPECT_LT(houses[0].widest * houses[1].widest, 0) << what;
  EXPECT_LT(houses[0].twist * houses[1].twist, 0) << what;
}
} // namespace

TEST(Winter, MovesButDoesNotTwistFlatAndQuarterSawnWood)
{
  for (const auto &[what, angle] : {std::pair{"flat-sawn", 0.}, {"quarter-sawn", 90 * degree}})
    for (const Winter &house : both(what, rings(angle))) {
      report("Winter, " + std::string(what), "twist farthest from the start, deg",
             "symmetry of the section", 0, house.widest / degree, 1e-6);
      EXPECT_NEAR(house.widest, 0, 1e-6 * degree) << what;
      EXPECT_GT(std::abs(house.most_bow), 1e-6) << what;
    }
}

TEST(Winter, TwistsRiftSawnWoodToTheSideOfItsRings)
{
  const auto rift = both("rift-sawn, rings at 45 deg", rings(45 * degree));
  expect_opposite_twist("rift-sawn", rift);
  expect_mirrored("Rift-sawn neck in a dry winter", rift[0],
                  winter("dry-shop", rings(-45 * degree)));
}

TEST(Winter, TwistsAShaftWithRunOutToTheSideOfItsGrain)
{
  const auto one = both("shaft with run-out of 5 %", run_out(0.05));
  expect_opposite_twist("run-out", one);
  expect_mirrored("Shaft with run-out in a dry winter", one[0], winter("dry-shop", run_out(-0.05)));
}

// Which way and how far is chance; that two blanks are not alike is the claim.
TEST(Winter, TwistsEachUnevenBlankInItsOwnWay)
{
  const auto one = both("swelling along the grain uneven by 60 %, blank 1", blank(1)),
             other = both("swelling along the grain uneven by 60 %, blank 2", blank(2));
  for (const unsigned house : {0u, 1u})
    EXPECT_GT(std::abs(one[house].widest - other[house].widest), 1e-3 * degree);
}

TEST(Winter, InTheAirItWasBuiltInMovesNothing)
{
  const Winter still = winter("dry-shop", at_rest);
  report("Neck without strings, 180 days in the air it was built in", "bow, mm", "rest", 0,
         1e3 * still.most_bow, 1e-5);
  EXPECT_NEAR(still.most_bow, 0, 1e-8);
  EXPECT_NEAR(still.widest, 0, 1e-6 * degree);
}
} // namespace overbend::tests
