// SPDX-License-Identifier: GPL-3.0-or-later
// Blanks that swell along the grain more or less than their wood in the table, on a whole neck.
#include "cases/read/read_case.h"
#include "tests/report.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <cmath>

namespace overbend::tests
{
namespace
{
// Fret slots that do not give: where they opened or shut the neck would be no linear bimetal.
cases::Case neck_with(const std::string &more)
{
  return cases::parse_case(
      "preset = \"electric\"\n[found]\nbow = \"1 mm\"\n[glue]\nboard = "
      "\"white PVA\"\n[numerics]\nresolution = 0.5\n[board]\nslot_depth = \"0 mm\"\n" +
          more,
      "blank.toml");
}

// Bow of the unstressed neck right after its water changed everywhere by `change`, m.
double bow_after(PlanNeck &neck, double change)
{
  solver::Model &model = neck.work.model;
  const solver::MechanicsState start = solver::unstressed(model);
  const double built = model.piece[unsigned(mesh::Piece::shaft)].moisture;
  const std::vector<double> T(model.space.n_nodes, materials::reference_temperature),
      before(T.size(), built), after(T.size(), built + change);
  neck.work.mechanics.begin(start, {T, T, before, after, before, {}, {}}, 0);
  std::vector<double> u = start.displacement;
  solver::BenchSetup bare;
  bare.nut = false;
  neck.work.mechanics.equilibrate(neck.work.bench.springs(bare, {}, 0), neck.no_load(), u);
  return solver::read(neck.work.lines, u).bow;
}

// The tables with the board's wood swelling along the grain `factor` times as much.
materials::Tables with_board_swelling(double factor)
{
  materials::Tables tables = materials::tables();
  const std::string wood = neck_with("").neck.board.wood;
  for (materials::Wood &w : tables.woods)
    if (&tables.wood(wood) == &w) {
      w.swelling_L_dry *= factor;
      w.swelling_L_damp *= factor;
    }
  return tables;
}
} // namespace

// Source: the bimetal (Timoshenko 1925): the bow goes with the difference of the free strains, so
// it is linear in the factor of one layer, and the longer layer lies outside the bend.
TEST(SwellingOfBlanks, BoardThatSwellsMoreBendsTheNeckByTheDifference)
{
  constexpr double damp = 0.03;
  PlanNeck even(neck_with("")), twice(neck_with("swelling_along = \"200 %\"\n")),
      four(neck_with("swelling_along = \"400 %\"\n"));
  const double b1 = bow_after(even, damp), b2 = bow_after(twice, damp), b4 = bow_after(four, damp);
  EXPECT_LT(b2, b1) << "a board that grows bends the neck back";
  EXPECT_GT(std::abs(b2 - b1), 0.02e-3);
  report("Board of four times the swelling along the grain", "change of bow, mm",
         "bimetal: three times that of twice the swelling", 3e3 * (b2 - b1), 1e3 * (b4 - b1), 1e-6);
  EXPECT_NEAR(b4 - b1, 3 * (b2 - b1), 1e-9);
  // Dried by as much, the other way: the law is bilinear, but the same on this side of the knee.
  const double d1 = bow_after(even, -0.005), d2 = bow_after(twice, -0.005);
  EXPECT_GT(d2, d1);
}

// The key says of one blank what the table says of the wood.
TEST(SwellingOfBlanks, TheKeyIsAFactorOnTheTable)
{
  PlanNeck by_key(neck_with("swelling_along = \"300 %\"\n")),
      by_table(neck_with(""), with_board_swelling(3));
  const double key = bow_after(by_key, 0.03), table = bow_after(by_table, 0.03);
  EXPECT_NEAR(key, table, 1e-12);
}

// All blanks alike: nothing but length changes by it, the neck is no bimetal.
TEST(SwellingOfBlanks, AllBlanksAlikeBendNothingMore)
{
  PlanNeck even(neck_with("")), all(neck_with("swelling_along = \"400 %\"\n[shaft]\n"
                                              "swelling_along = \"400 %\"\n"));
  // Across the grain the woods differ, and bend a little by it in both.
  EXPECT_NEAR(bow_after(all, 0.03), bow_after(even, 0.03), 0.01e-3);
}
} // namespace overbend::tests
