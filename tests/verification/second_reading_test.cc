// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/make_neck_mesh.h"
#include "solver/job/neck_line.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

// A whole neck with a fast line that is read hot a second time, and let up then.
namespace overbend::tests
{
namespace
{
struct FastNeck
{
  cases::Case c = guard_case();
  mesh::NeckMesh mesh = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
  materials::Tables tables = materials::tables();
  solver::NeckLine line{c, mesh, tables, fast(), [](const std::string &) {}};

  static solver::LineChoice fast()
  {
    solver::LineChoice choice;
    choice.speed = materials::LineSpeed::fast;
    choice.place = 1;
    choice.step_coarseness = 5;
    return choice;
  }
};
} // namespace

// Source: a line that has given way follows what pulls on it while it is hot, so where the clamp is
// last counts; looking alone changes nothing.
TEST(SecondReading, LetsAFastLineUpAndChangesNothingByLooking)
{
  FastNeck neck;
  const solver::ClampSetting deep{-1.2e-3, 0}, shallow{-0.3e-3, 0};
  const solver::PlanColumn once = neck.line.run(deep, 1);
  const solver::Reading seen = neck.line.seen_at_second_reading(once);
  neck.line.read_twice(true);
  const solver::PlanColumn looked = neck.line.run(deep, 1);
  EXPECT_EQ(looked.history.phases.size(), once.history.phases.size() + 2);
  report("Fast line read hot a second time, nothing let up", "bow strung, mm", "not looked at",
         1e3 * once.reached.bow, 1e3 * looked.reached.bow, 5e-3);
  EXPECT_NEAR(looked.reached.bow, once.reached.bow, 5e-6);
  EXPECT_NEAR(neck.line.seen_at_second_reading(looked).bow, seen.bow, 5e-6);
  EXPECT_LT(seen.bow, deep.bow - 0.1e-3) << "it has run on";
  EXPECT_NEAR(neck.line.released(once).bow, neck.line.released(looked).bow, 5e-6)
      << "phases are found in a history with and without the reading";

  const solver::PlanColumn let_up = neck.line.run(deep, 1, shallow);
  const double share = (let_up.reached.bow - once.reached.bow) / (shallow.bow - seen.bow);
  std::printf("seen %.3f, left %.3f, let up %.3f mm, share %.2f\n", 1e3 * seen.bow,
              1e3 * once.reached.bow, 1e3 * let_up.reached.bow, share);
  EXPECT_GT(share, 0.5) << "it follows";
  EXPECT_LT(share, 1);
  // Nearly as a neck does that was never clamped further: the ends and edges of the line are colder
  // and have not forgotten all of the 0.9 mm between the two settings.
  const solver::PlanColumn straight_away = neck.line.run(shallow, 1);
  report("Fast line let up, against one clamped so from the first", "bow strung, mm",
         "a soft line forgets", 1e3 * straight_away.reached.bow, 1e3 * let_up.reached.bow, 0.25);
  EXPECT_NEAR(let_up.reached.bow, straight_away.reached.bow, 0.25e-3);

  // Told as a first pass that was done, it is the same history.
  cases::Case told = neck.c;
  const solver::Reading added = neck.line.at_bench({});
  told.first_pass.overbend = deep.bow + added.bow;
  told.first_pass.overbend_twist = deep.twist + added.twist;
  told.first_pass.let_up_to = shallow.bow + added.bow;
  told.first_pass.bow = 0;
  solver::NeckLine done(
      told, neck.mesh, neck.tables, FastNeck::fast(), [](const std::string &) {}, &neck.line);
  EXPECT_NEAR(done.first_pass_as_done().bow, neck.line.released(let_up).bow, 5e-6);
}
} // namespace overbend::tests
