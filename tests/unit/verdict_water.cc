// SPDX-License-Identifier: GPL-3.0-or-later
// A neck from air far drier or damper than the shop's is conditioned first.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/verdict/verdict_water.h"

#include "materials/sorption.h"
#include "mesh/make_neck_mesh.h"
#include "solver/model/build_model.h"
#include "tests/unit/sound_case.h"

using namespace overbend;
using solver::judge_water;
using solver::Verdict;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using tests::sound_case;

namespace
{
// Water of wood at rest with air of a humidity, at the shop's temperature.
double water_at(const cases::Case &c, double humidity)
{
  return materials::equilibrium_moisture(c.room.temperature, humidity, solver::sorption_branch(c));
}
} // namespace

// Limit of the tables, common practice: 15 % of relative humidity either way.
TEST(JudgeWater, AsksForTheShopsAirWithinTheLimit)
{
  cases::Case c = sound_case();
  c.room.humidity = 0.45;
  for (const double humidity : {0.31, 0.45, 0.59})
    EXPECT_EQ(judge_water(c, water_at(c, humidity)).kind, Verdict::do_it) << humidity;
  for (const double humidity : {0.29, 0.61})
    EXPECT_EQ(judge_water(c, water_at(c, humidity)).kind, Verdict::condition_first) << humidity;
}

// The advice for a neck at 22 % is never more heat.
TEST(JudgeWater, ADampNeckIsToStandInTheShopAndIsNotHeated)
{
  cases::Case c = sound_case();
  c.room.humidity = 0.45;
  const Verdict v = judge_water(c, 0.22);
  EXPECT_TRUE(v.refused());
  EXPECT_THAT(v.reasons, ElementsAre(::testing::AllOf(HasSubstr("too damp"), HasSubstr("22 %"),
                                                      HasSubstr("the shop has 45 %"))));
  EXPECT_THAT(v.alternatives, ElementsAre(HasSubstr("let it stand in the shop's air")));
  EXPECT_THAT(judge_water(c, 0.04).reasons, ElementsAre(HasSubstr("too dry")));
}

TEST(JudgeWater, AWaitBeforeTheHeatIsEnough)
{
  const std::string clamp = "[[phase]]\nkind = \"clamp\"\nduration = \"10 min\"\n[[phase]]\nkind = "
                            "\"heat\"\nduration = \"1 h\"\n",
                    wait = "[[phase]]\nkind = \"condition\"\nduration = \"3 weeks\"\n";
  const auto kind = [](const std::string &phases) {
    return judge_water(
               cases::parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + phases,
                                 "water.toml"),
               0.22)
        .kind;
  };
  EXPECT_EQ(kind(clamp), Verdict::condition_first);
  EXPECT_EQ(kind(wait + clamp), Verdict::do_it);
  EXPECT_EQ(kind("[[phase]]\nkind = \"clamp\"\nduration = \"10 min\"\n"), Verdict::do_it) << "cold";
}

// A field that is linear along the neck has the mean of its place: of the centroid, by the volumes.
TEST(MeanMoisture, IsWeighedByVolume)
{
  const cases::Case c = sound_case();
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, 0.5);
  const solver::Model model = solver::build_model(c, neck, materials::tables(), {});
  const std::vector<double> even(model.space.n_nodes, 0.08);
  EXPECT_NEAR(solver::mean_moisture(model, even), 0.08, 1e-12);
  double volume = 0, moment = 0;
  const std::vector<double> x = [&] {
    std::vector<double> places;
    for (const auto &p : model.space.position)
      places.push_back(p[0]);
    return places;
  }();
  const std::vector<double> at = solver::at_points(model.space, x);
  for (std::size_t q = 0; q < at.size(); ++q) {
    volume += model.space.jxw[q];
    moment += model.space.jxw[q] * at[q];
  }
  EXPECT_NEAR(solver::mean_moisture(model, x), moment / volume, 1e-9);
}
