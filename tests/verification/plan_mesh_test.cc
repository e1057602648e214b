// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "tests/report.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// The default mesh against one with at least four times its unknowns: bow by a pull of both cords
// and twist by a torque on the headstock, with glued lines and with lines that slide freely.
namespace overbend::tests
{
namespace
{
constexpr double finer = 1.85; // resolution: at least four times the unknowns
constexpr double target = 0.01;
const char *const source = "same neck, four times the unknowns";

struct Compliances
{
  unsigned unknowns = 0;
  double bow[2]{}, twist[2]{}; // glued, sliding
};

Compliances compliances(cases::Case c, double resolution)
{
  c.numerics.resolution = resolution;
  PlanNeck neck(std::move(c), elastic_tables());
  Compliances result;
  result.unknowns = neck.work.model.n_unknowns();
  for (const unsigned sliding : {0U, 1U}) {
    for (const unsigned line : {solver::board_line, solver::scarf_line, solver::tongue_line})
      if (sliding)
        neck.make_free(line);
      else
        neck.make_glass(line);
    result.bow[sliding] = solver::read(neck.work.lines, neck.under(neck.cord_pull(50, 50))).bow;
    result.twist[sliding] =
        solver::read(neck.work.lines, neck.under(neck.headstock_torque())).twist;
  }
  return result;
}

void compare(const std::string &name, const cases::Case &c)
{
  const Compliances coarse = compliances(c, 1), fine = compliances(c, finer);
  ASSERT_GE(fine.unknowns, 4 * coarse.unknowns);
  const std::string counts = ", " + std::to_string(coarse.unknowns) + " against " +
                             std::to_string(fine.unknowns) + " unknowns";
  for (const unsigned sliding : {0U, 1U}) {
    const std::string state = sliding ? ", lines sliding" : ", lines glued";
    const double bow = coarse.bow[sliding] / fine.bow[sliding],
                 twist = coarse.twist[sliding] / fine.twist[sliding];
    report("Default mesh, " + name + counts, "bow by the cords" + state + ", share", source, 1, bow,
           target);
    report("Default mesh, " + name + counts, "twist by a torque" + state + ", share", source, 1,
           twist, target);
    EXPECT_NEAR(bow, 1, target);
    EXPECT_NEAR(twist, 1, target);
  }
}

cases::Case preset(const std::string &name)
{
  return cases::parse_case("preset = \"" + name + "\"\n[found]\nbow = \"0.6 mm\"\n", "mesh.toml");
}
} // namespace

TEST(DefaultMesh, ScarfedNeckIsWithinOnePerCentOfFourTimesTheUnknowns)
{
  compare("scarfed neck", shipped_case("scarfed-neck", 1));
}

TEST(DefaultMesh, ElectricIsWithinOnePerCentOfFourTimesTheUnknowns)
{
  compare("electric", preset("electric"));
}

TEST(DefaultMesh, ClassicalIsWithinOnePerCentOfFourTimesTheUnknowns)
{
  compare("classical", preset("classical"));
}

TEST(DefaultMesh, SteelStringAcousticIsWithinOnePerCentOfFourTimesTheUnknowns)
{
  compare("steel-string acoustic", preset("steel-string acoustic"));
}

TEST(DefaultMesh, LongScaleBassIsWithinOnePerCentOfFourTimesTheUnknowns)
{
  compare("long-scale bass", preset("long-scale bass"));
}
} // namespace overbend::tests
