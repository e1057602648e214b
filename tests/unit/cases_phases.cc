// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declarations.h"
#include "cases/declare/phases.h"
#include "cases/read/read_case.h"

#include <gtest/gtest.h>

#include <set>

namespace
{
using namespace overbend::cases;

Case electric(const std::string &more)
{
  return parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + more, "test.toml");
}

std::vector<PhaseKind> kinds(const Case &result)
{
  std::vector<PhaseKind> all;
  for (const Phase &phase : result.phases)
    all.push_back(phase.kind);
  return all;
}

const Phase &named(const Case &result, const std::string &name)
{
  for (const Phase &phase : result.phases)
    if (phase.name == name)
      return phase;
  throw std::out_of_range(name);
}

TEST(Phases, TheDefaultScheduleIsTheUsualJob)
{
  const Case result = electric("");
  using K = PhaseKind;
  EXPECT_EQ(kinds(result), (std::vector<K>{K::clamp, K::heat, K::reread, K::hold, K::cool,
                                           K::release, K::rest, K::string_up}));
  const Phase &clamp = result.phases[0], &heat = result.phases[1], &reread = result.phases[2];
  EXPECT_TRUE(clamp.cords && clamp.cradle && !clamp.heater && !clamp.strings);
  EXPECT_EQ(clamp.pull.kind, Pull::Kind::to_reading);
  EXPECT_TRUE(heat.heater && heat.cords && heat.cradle);
  EXPECT_EQ(heat.pull.kind, Pull::Kind::none);
  EXPECT_DOUBLE_EQ(heat.bar_temperature, result.heater.bar_temperature);
  EXPECT_EQ(reread.pull.kind, Pull::Kind::to_reading);
  const Phase &cool = result.phases[4], &release = result.phases[5], &strung = result.phases[7];
  EXPECT_TRUE(cool.cords && !cool.heater);
  EXPECT_FALSE(release.cords || release.cradle || release.heater);
  EXPECT_TRUE(strung.strings);
  EXPECT_EQ(strung.rod, RodState::set);
}

// Three quarters of an hour until the line is soft, five minutes to read, an hour and a half at the
// overbend.
TEST(Phases, TheHeatIsOnForTwoHoursAndTwentyMinutes)
{
  double hot = 0;
  for (const Phase &phase : electric("").phases)
    hot += phase.heater ? phase.duration : 0;
  EXPECT_DOUBLE_EQ(hot, 8400);
  EXPECT_DOUBLE_EQ(named(electric(""), "heat").duration, 2700);
}

TEST(Phases, TheStringsStayOnUntilTheTargetIsRead)
{
  const Case result = electric("[target]\nafter_release = \"30 days\"\n");
  double after_release = 0;
  for (const Phase &phase : result.phases)
    if (phase.kind == PhaseKind::release || phase.kind == PhaseKind::rest || phase.strings)
      after_release += phase.duration;
  EXPECT_DOUBLE_EQ(after_release, 30 * 86400.0);
}

// Halfway through the hold, which stays as long as it was; nothing is pulled, and a later pass is
// not read twice.
TEST(Phases, ASecondHotReadingLiesInTheMiddleOfTheHoldOfTheFirstPass)
{
  const Case once = electric("[schedule]\nhold = \"3 h\"\n");
  const Case twice = electric("[schedule]\nhold = \"3 h\"\nsecond_reread = true\n");
  using K = PhaseKind;
  EXPECT_EQ(kinds(twice), (std::vector<K>{K::clamp, K::heat, K::reread, K::hold, K::reread, K::hold,
                                          K::cool, K::release, K::rest, K::string_up}));
  EXPECT_FALSE(second_reading(once.phases));
  ASSERT_EQ(second_reading(twice.phases), 4u);
  const Phase &second = twice.phases[4];
  EXPECT_EQ(second.pull.kind, Pull::Kind::none);
  EXPECT_TRUE(second.cords && second.heater);
  EXPECT_DOUBLE_EQ(twice.phases[3].duration, 5400);
  EXPECT_DOUBLE_EQ(second.duration + twice.phases[5].duration, 5400);
  EXPECT_TRUE(twice.phases[2].pull.decides);
  EXPECT_EQ(scheduled_phases(twice, 2).size(), scheduled_phases(once, 2).size() + 2);
}

TEST(Phases, TheRereadingCanBeLeftOut)
{
  for (const Phase &phase : electric("[schedule]\nreread = false\n").phases)
    EXPECT_NE(phase.kind, PhaseKind::reread);
}

TEST(Phases, WarmingFreeComesBeforeTheClampAndCoolsDown)
{
  const Case result = electric("[schedule]\nwarm_free = true\nwrap = true\n");
  const Phase &free = result.phases[0], &cool = result.phases[1], &clamp = result.phases[2];
  EXPECT_EQ(free.kind, PhaseKind::warm_free);
  EXPECT_TRUE(free.heater && free.air.wrapped);
  EXPECT_FALSE(free.cords || free.cradle || free.strings);
  EXPECT_FALSE(cool.heater);
  EXPECT_EQ(clamp.kind, PhaseKind::clamp);
  EXPECT_FALSE(clamp.heater);
}

TEST(Phases, TheWrapStaysWhileCoolingInTheClampAndGoesAtRelease)
{
  const Case result = electric("[schedule]\nwrap = true\n");
  EXPECT_FALSE(named(result, "clamp cold").air.wrapped);
  EXPECT_TRUE(named(result, "heat").air.wrapped);
  EXPECT_TRUE(named(result, "cool in the clamp").air.wrapped);
  EXPECT_FALSE(named(result, "release").air.wrapped);
  EXPECT_EQ(named(result, "heat").air.wrap_resistance, 3e7);
}

TEST(Phases, FoilUnderTheClothHoldsBackTenTimesAsMuch)
{
  const Case result = electric("[schedule]\nwrap = true\nwrap_foil = true\n");
  for (const char *phase : {"heat", "hold", "cool in the clamp"})
    EXPECT_EQ(named(result, phase).air.wrap_resistance, foil_resistance) << phase;
  // A wrap that is told to be tighter than foil stays so.
  const Case tight = electric("[schedule]\nwrap = true\nwrap_foil = true\n"
                              "[room]\nwrap_resistance = \"1e9 s/m\"\n");
  EXPECT_EQ(named(tight, "heat").air.wrap_resistance, 1e9);
}

TEST(Phases, TheNutCanBeOutInTheClampAndIsBackUnderStrings)
{
  const Case result = electric("[schedule]\nnut = false\n");
  EXPECT_FALSE(named(result, "hold").nut);
  EXPECT_TRUE(named(result, "string up").nut);
}

TEST(Phases, AStopBlockIsInPlaceWhileClamped)
{
  const Case result = electric("[bench]\nstop_block = true\n");
  EXPECT_TRUE(named(result, "hold").block);
  EXPECT_FALSE(named(result, "release").block);
}

// Set to the cold reading first, and anew when the line is soft.
TEST(Phases, AStopBlockIsSetAgainAtTheHotReading)
{
  const Case result = electric("[bench]\nstop_block = true\n");
  for (const char *name : {"clamp cold", "read again hot"}) {
    EXPECT_EQ(named(result, name).pull.kind, Pull::Kind::to_reading) << name;
    EXPECT_TRUE(named(result, name).block) << name;
  }
}

TEST(Phases, ARodAtItsStopIsSlackenedAndEndsSlackUnlessItIsToBeSetAgain)
{
  const Case slack = electric("[rod]\nstate = \"at its stop\"\n");
  EXPECT_EQ(slack.target.rod, RodState::slack);
  for (const Phase &phase : slack.phases)
    EXPECT_EQ(phase.rod, RodState::slack);
  const Case set = electric("[rod]\nstate = \"at its stop\"\n[target]\nrod = \"set\"\n");
  EXPECT_EQ(set.target.rod, RodState::set);
  EXPECT_EQ(named(set, "clamp cold").rod, RodState::slack);
  EXPECT_EQ(named(set, "string up").rod, RodState::set);
}

TEST(Phases, ASeizedRodIsInEveryOneOfThem)
{
  const Case told = electric("[rod]\nstate = \"seized\"\nforce = \"400 N\"\n");
  EXPECT_EQ(told.target.rod, RodState::seized);
  for (const Phase &phase : told.phases)
    EXPECT_EQ(phase.rod, RodState::seized);
  EXPECT_DOUBLE_EQ(told.neck.rod.force.value(), 400);
  const Case open = electric("[rod]\nstate = \"seized\"\nforce = \"unknown\"\n");
  EXPECT_FALSE(open.neck.rod.force.has_value());
}

const char *own_phases = R"(
[[phase]]
kind = "condition"
duration = "1 week"
humidity = "45 %"
[[phase]]
kind = "clamp"
duration = "10 min"
pull = "take-up"
take_up_bass = "2 mm"
take_up_treble = "3 mm"
[[phase]]
kind = "heat"
duration = "1 h"
bar_temperature = "60 degC"
wrapped = true
[[phase]]
kind = "hold"
duration = "1 h"
[[phase]]
kind = "cool"
duration = "4 h"
air_temperature = "10 degC"
[[phase]]
kind = "hold"
name = "leave it alone"
duration = "4 h"
[[phase]]
kind = "release"
duration = "1 h"
)";

TEST(Phases, WhatIsOnTheBenchStays)
{
  const Case result = electric(own_phases);
  ASSERT_EQ(result.phases.size(), 7u);
  const auto &p = result.phases;
  EXPECT_DOUBLE_EQ(p[1].air.humidity, 0.45); // set two phases before
  EXPECT_DOUBLE_EQ(p[1].pull.take_up_treble, 3e-3);
  EXPECT_EQ(p[2].pull.kind, Pull::Kind::none); // a pull is done once
  EXPECT_EQ(p[2].pull.take_up_bass, 0);
  EXPECT_TRUE(p[3].heater && p[3].air.wrapped && p[3].cords);
  EXPECT_DOUBLE_EQ(p[3].bar_temperature, 333.15);
  EXPECT_FALSE(p[4].heater);
  EXPECT_DOUBLE_EQ(p[5].air.temperature, 283.15);
  EXPECT_TRUE(p[5].cords);
  EXPECT_FALSE(p[6].cords || p[6].cradle || p[6].air.wrapped);
}

TEST(Phases, NamesAreUniqueAndLinesKnown)
{
  const Case result = electric(own_phases);
  std::set<std::string> names;
  for (const Phase &phase : result.phases)
    EXPECT_TRUE(names.insert(phase.name).second) << phase.name;
  EXPECT_TRUE(names.count("leave it alone"));
  EXPECT_EQ(result.phases[0].line, 5);
  EXPECT_EQ(electric("").phases[0].line, 0);
}

TEST(Phases, ADeadRodStaysDead)
{
  const Case broken = electric("[rod]\nstate = \"broken\"\n");
  EXPECT_EQ(broken.target.rod, RodState::broken);
  for (const Phase &phase : broken.phases)
    EXPECT_EQ(phase.rod, RodState::broken);
  const Case none = electric("[rod]\nkind = \"none\"\n");
  for (const Phase &phase : none.phases)
    EXPECT_EQ(phase.rod, RodState::slack);
}

TEST(Phases, EveryKindHasItsWord)
{
  EXPECT_EQ(phase_notes().size(), static_cast<std::size_t>(PhaseKind::play) + 1);
  EXPECT_EQ(word(PhaseKind::store), "store");
  EXPECT_EQ(word(PhaseKind::reread), "reread");
  EXPECT_EQ(word(PhaseKind::string_up), "string up");
  EXPECT_EQ(word(PhaseKind::warm_free), "warm free");
}

TEST(Phases, ABarOverTheNutNeedsTheNutOut)
{
  const std::string start = "preset = \"electric\"\n[found]\nbow = \"1 mm\"\n";
  const Case result = parse_case(start + "[heater]\nfrom = \"-30 mm\"\n", "over.toml");
  for (const Phase &phase : result.phases) {
    EXPECT_FALSE(phase.heater && phase.nut) << phase.name;
    EXPECT_TRUE(!phase.strings || phase.nut) << phase.name;
  }
  EXPECT_THROW(
      parse_case(start + "[[phase]]\nkind = \"heat\"\nduration = \"1 h\"\nnut = true\n", "in.toml"),
      CaseError);
  EXPECT_NO_THROW(parse_case(start + "[heater]\nfrom = \"0 mm\"\n[[phase]]\nkind = \"heat\"\n"
                                     "duration = \"1 h\"\nnut = true\n",
                             "board.toml"));
}

// A phase after free warming in which the heat goes off holds no temperature: neither a rest, nor
// what is told so.
TEST(Phases, HeatThatGoesOffAfterFreeWarmingHoldsNoTemperature)
{
  const std::string warm = "[[phase]]\nkind = \"warm free\"\nduration = \"30 min\"\n";
  for (const char *next : {"kind = \"rest\"", "kind = \"rest\"\nheater = false", "kind = \"cool\"",
                           "kind = \"hold\"\nheater = false"}) {
    const Case result = electric(warm + "[[phase]]\n" + next + "\nduration = \"2 h\"\n");
    EXPECT_TRUE(result.phases[0].heater) << next;
    EXPECT_FALSE(result.phases[1].heater) << next;
    EXPECT_EQ(result.phases[1].bar_temperature, 0) << next;
  }
}
} // namespace
