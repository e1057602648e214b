// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/checking.h"
#include "cases/declare/declarations.h"
#include "materials/sorption.h"
#include "mesh/names.h"
#include "solver/model/interfaces.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <set>

// How the faces of a whole neck meet the air: which finish, what is closed, and what heat does.
namespace overbend::tests
{
namespace
{
using mesh::Face;

constexpr double hour = 3600, day = 86400, celsius = 273.15;

unsigned id(Face face)
{
  return static_cast<unsigned>(face);
}

std::set<unsigned> nodes_of(const solver::Model &model, Face face)
{
  std::set<unsigned> nodes;
  for (const auto &n : solver::face_nodes(model.space, id(face)))
    nodes.insert(n.node);
  return nodes;
}

// Of the board top's middle line, away from its ends.
unsigned board_top_node(const GuardNeck &neck, double x)
{
  unsigned best = 0;
  double least = 1;
  for (const unsigned n : nodes_of(neck.work.model, Face::board_top)) {
    const auto &p = neck.work.model.space.position[n];
    const double away = std::hypot(p[0] - x, p[1]);
    if (away < least) {
      least = away;
      best = n;
    }
  }
  return best;
}

// A neck at 48 degC all through, in the vapour of a room of 20 degC and 50 %.
solver::MoistureHistory kept_warm(const GuardNeck &neck, double duration, bool wrapped,
                                  double cloth = 3e7)
{
  cases::Phase phase = neck.c.phases.front();
  phase.name = "warm";
  phase.duration = duration;
  phase.heater = false;
  phase.climate = {};
  phase.air.temperature = celsius + 20;
  phase.air.humidity = 0.5;
  phase.air.wrapped = wrapped;
  phase.air.wrap_resistance = cloth;
  const std::vector<double> T(neck.work.model.space.n_nodes, celsius + 48);
  solver::ThermalHistory heat;
  heat.add({0, T, {}, 0});
  heat.add({duration, T, {}, 0});
  return solver::simulate_moisture(neck.work.model, neck.c, {phase}, heat,
                                   std::vector<double>(T.size(), 0.09));
}

double sum_of_strength(const solver::MoistureSystem &system)
{
  double sum = 0;
  for (const auto &p : system.surface())
    sum += p.strength;
  return sum;
}
} // namespace

// The order of the words in the case file and that of the table of finishes are two things.
TEST(WetFaces, EachFaceHasTheFinishItsWordSays)
{
  const auto &words = cases::find_declaration("finish", "kind")->words;
  ASSERT_EQ(words.size(), 8u);
  GuardNeck neck(guard_case());
  for (const auto &[kind, name] :
       {std::pair(cases::Finish::bare, "bare"), std::pair(cases::Finish::oil, "oil"),
        std::pair(cases::Finish::shellac, "shellac"),
        std::pair(cases::Finish::nitro_lacquer, "nitro lacquer"),
        std::pair(cases::Finish::acrylic, "acrylic"),
        std::pair(cases::Finish::polyester, "polyester"),
        std::pair(cases::Finish::polyurethane, "polyurethane"),
        std::pair(cases::Finish::unknown, "unknown")}) {
    neck.c.faces.back = {kind, cases::FinishCondition::sound};
    neck.c.faces.headstock = {cases::Finish::shellac, cases::FinishCondition::worn};
    neck.c.faces.board = {cases::Finish::oil, cases::FinishCondition::worn};
    const auto s = solver::moisture_surroundings(neck.work.model, neck.c, {}, false);
    const auto &back = s.coating.at(id(Face::back));
    EXPECT_EQ(back.finish->name, name);
    EXPECT_EQ(back.condition, materials::FilmCondition::sound);
    for (const Face face : {Face::headstock_face, Face::headstock_other}) {
      EXPECT_EQ(s.coating.at(id(face)).finish->name, "shellac");
      EXPECT_EQ(s.coating.at(id(face)).condition, materials::FilmCondition::worn);
    }
    for (const Face face :
         {Face::board_top, Face::board_side, Face::board_nut_end, Face::board_body_end}) {
      EXPECT_EQ(s.coating.at(id(face)).finish->name, "oil");
      EXPECT_EQ(s.coating.at(id(face)).condition, materials::FilmCondition::worn);
    }
    EXPECT_EQ(s.coating.count(id(Face::body)), 0u);
    EXPECT_EQ(s.coating.count(id(Face::channel)), 0u);
  }
}

TEST(WetFaces, ATongueIsBareBelowUnlessItIsGlued)
{
  GuardNeck neck;
  solver::Model &model = neck.work.model;
  const auto under = nodes_of(model, Face::tongue_under);
  ASSERT_FALSE(under.empty());
  const auto glue = model.glue_point;
  model.glue_point.erase(std::remove_if(model.glue_point.begin(), model.glue_point.end(),
                                        [](const solver::GluePoint &p) { return p.lower < 0; }),
                         model.glue_point.end());
  const auto loose = solver::moisture_surroundings(model, neck.c, {}, false);
  ASSERT_EQ(loose.coating.count(id(Face::tongue_under)), 1u);
  EXPECT_EQ(loose.coating.at(id(Face::tongue_under)).finish->name, "bare");
  model.glue_point = glue;
  solver::GluePoint on_body;
  on_body.upper = *under.begin();
  on_body.lower = -1;
  model.glue_point.push_back(on_body);
  const auto glued = solver::moisture_surroundings(model, neck.c, {}, false);
  EXPECT_EQ(glued.coating.count(id(Face::tongue_under)), 0u);
}

// The bar closes its own area of the board and nothing else.
TEST(WetFaces, WhatLiesUnderTheBarIsClosed)
{
  GuardNeck neck;
  const auto &model = neck.work.model;
  solver::MoistureSystem open(model, solver::moisture_surroundings(model, neck.c, {}, false)),
      heated(model, solver::moisture_surroundings(model, neck.c, {}, true));
  const cases::Heater &bar = neck.c.heater;
  double expected = 0;
  constexpr int pieces = 1000;
  const double from = std::max(0., bar.from), to = bar.to;
  for (int k = 0; k < pieces; ++k) {
    const double x = from + (to - from) * (k + 0.5) / pieces;
    expected += std::min(bar.width, cases::width_at(neck.c.neck, x)) * (to - from) / pieces;
  }
  const double density = model.piece[unsigned(mesh::Piece::board)].dry_density;
  const double closed = (sum_of_strength(open) - sum_of_strength(heated)) / density;
  report("Board under the bar, closed to water", "area, cm2", "width times length", 1e4 * expected,
         1e4 * closed, 0.03 * 1e4 * expected);
  EXPECT_NEAR(closed, expected, 0.03 * expected);
}

// Source: 20 degC and 50 % is 1170 Pa; at 48 degC that is 10.5 % humidity, where the handbook's
// equation gives 2.2 % (Wood Handbook Eq. 4-5).
TEST(HeatWithoutWater, DriesTheSurfaceToWhatTheRoomsVapourHoldsThere)
{
  GuardNeck neck(guard_case());
  neck.c.faces.board = {cases::Finish::bare, cases::FinishCondition::sound};
  const unsigned top = board_top_node(neck, 0.2);
  const auto years = kept_warm(neck, 3 * 365 * day, false);
  double before = 0.09;
  for (const auto &state : years.all()) {
    EXPECT_LE(state.moisture[top], before + 2e-4) << state.time; // the error of a step
    before = state.moisture[top];
  }
  const double soon = years.at(2 * hour)[top], late = years.all().back().moisture[top];
  EXPECT_LT(soon, 0.088);
  EXPECT_GT(soon, 0.022);
  report("Board at 48 degC in the air of a room of 20 degC, 50 %", "moisture at its top, %",
         "Wood Handbook Eq. 4-5", 2.2, 100 * late, 0.05);
  EXPECT_NEAR(100 * late, 2.2, 0.05);
}

// The cloth lies in series with the air; nothing else of the neck changes.
TEST(WrappedNeck, ClothCoversAllWoodThatTheBarDoesNot)
{
  GuardNeck neck;
  cases::Air air = neck.c.room;
  air.wrapped = true;
  air.wrap_resistance = 4e7;
  const auto s = solver::moisture_surroundings(neck.work.model, neck.c, air, true);
  for (const Face face : {Face::back, Face::headstock_face, Face::headstock_other, Face::board_side,
                          Face::board_top, Face::board_nut_end, Face::board_body_end})
    EXPECT_EQ(s.coating.at(id(face)).cloth, 4e7) << mesh::name(face);
  air.wrapped = false;
  for (const auto &[face, coating] :
       solver::moisture_surroundings(neck.work.model, neck.c, air, true).coating)
    EXPECT_EQ(coating.cloth, 0) << face;
}

// A cloth of 3e7 s/m lets bare wood of 9 % give off 0.42 of what it gives off to the air (2.2e7
// s/m), while its skin is as it was; one that lets nothing through holds the water.
TEST(WrappedNeck, ClothSlowsTheDryingAndOneThatIsTightStopsIt)
{
  GuardNeck neck(guard_case());
  neck.c.faces.board = neck.c.faces.back =
      neck.c.faces.headstock = {cases::Finish::bare, cases::FinishCondition::sound};
  const auto &model = neck.work.model;
  const auto wrapped = kept_warm(neck, 2 * hour, true), open = kept_warm(neck, 2 * hour, false),
             tight = kept_warm(neck, 2 * hour, true, 1e12);
  const auto driest = [&](const solver::MoistureHistory &history, Face face) {
    double least = 0.09;
    for (const unsigned n : nodes_of(model, face)) // of a back far from the board
      if (face == Face::board_side || face == Face::board_nut_end ||
          model.space.position[n][2] < -0.012)
        least = std::min(least, history.all().back().moisture[n]);
    return least;
  };
  for (const Face face :
       {Face::back, Face::headstock_other, Face::board_side, Face::board_nut_end}) {
    std::printf("%s, driest after 2 h, %%: wrapped %.3f, open %.3f, tight %.3f\n",
                mesh::name(face).c_str(), 100 * driest(wrapped, face), 100 * driest(open, face),
                100 * driest(tight, face));
    EXPECT_GT(driest(wrapped, face), driest(open, face) + 5e-4);
    EXPECT_LT(driest(wrapped, face), 0.0895);
    EXPECT_NEAR(driest(tight, face), 0.09, 2e-4);
  }
  const unsigned top = board_top_node(neck, 0.2);
  EXPECT_GT(wrapped.all().back().moisture[top], open.all().back().moisture[top] + 5e-4);
}
} // namespace overbend::tests
