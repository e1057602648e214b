// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/phases.h"
#include "cases/read/read_case.h"
#include "cases/read/set_up_open.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

// What a case leaves to the plan, and the phases of one pass or two.
namespace
{
using namespace overbend::cases;

Case electric(const std::string &more = "")
{
  return parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + more, "test.toml");
}

std::vector<bool> open_of(const std::string &more)
{
  const LeftOpen open = electric(more).left_open;
  return {open.bar_temperature, open.bar_ends, open.bar_width, open.wrap,
          open.wrap_foil,       open.hold,     open.device,    open.cradle};
}

Phase phase_of(PhaseKind kind, bool cords, bool heater, bool pulls)
{
  Phase phase;
  phase.kind = kind;
  phase.cords = cords;
  phase.heater = heater;
  if (pulls)
    phase.pull.kind = Pull::Kind::to_reading;
  return phase;
}

const char *const listed = "[[phase]]\nkind = \"clamp\"\nduration = \"10 min\"\n";
} // namespace

TEST(SetUpOpen, IsWhatTheFileDoesNotSay)
{
  EXPECT_EQ(open_of(""), (std::vector<bool>{true, true, true, true, true, true, true, true}));
  EXPECT_EQ(open_of("[heater]\nbar_temperature = \"60 degC\"\n"),
            (std::vector<bool>{false, true, true, true, true, true, true, true}));
  EXPECT_EQ(open_of("[heater]\nto = \"fret 12\"\niron_to = \"fret 12\"\n"),
            (std::vector<bool>{true, false, true, true, true, true, true, true}));
  EXPECT_EQ(open_of("[heater]\nwidth = \"40 mm\"\n"),
            (std::vector<bool>{true, true, false, true, true, true, true, true}));
  EXPECT_EQ(open_of("[schedule]\nwrap = false\nhold = \"2 h\"\n"),
            (std::vector<bool>{true, true, true, false, true, false, true, true}));
  EXPECT_EQ(open_of("[bench]\ndevice = \"strap\"\ncradle = \"fret 5\"\n"),
            (std::vector<bool>{true, true, true, true, true, true, false, false}));
  EXPECT_EQ(open_of("[schedule]\nwrap = true\nwrap_foil = true\n"),
            (std::vector<bool>{true, true, true, false, false, true, true, true}));
  // What the wrap holds back is told: then it is not the plan's to choose.
  EXPECT_EQ(open_of("[room]\nwrap_resistance = \"5e7 s/m\"\n"),
            (std::vector<bool>{true, true, true, true, false, true, true, true}));
}

TEST(SetUpOpen, ASecondHotReadingIsThePlansToChooseUnlessTheFileSaysOrReadsNone)
{
  EXPECT_TRUE(electric().left_open.second_reread);
  for (const char *said : {"[schedule]\nsecond_reread = false\n", "[schedule]\nreread = false\n"})
    EXPECT_FALSE(electric(said).left_open.second_reread) << said;
}

// A parked iron holds its own soleplate: there is no bar temperature to choose.
TEST(SetUpOpen, AParkedIronHasNoSetPointToChoose)
{
  EXPECT_FALSE(electric("[heater]\nsource = \"parked\"\n").left_open.bar_temperature);
}

TEST(SetUpOpen, NothingIsOpenWhereThePhasesAreListed)
{
  EXPECT_EQ(open_of(listed), std::vector<bool>(8, false));
  EXPECT_FALSE(fixes_set_up(electric(listed)));
}

TEST(SetUpOpen, ACaseThatFixesOneThingFixesTheSetUp)
{
  EXPECT_FALSE(fixes_set_up(electric()));
  EXPECT_FALSE(fixes_set_up(electric("[schedule]\nheat = \"1 h\"\n")));
  for (const char *one : {"[heater]\nbar_temperature = \"60 degC\"\n", "[schedule]\nwrap = true\n",
                          "[schedule]\nhold = \"2 h\"\n", "[bench]\ncradle = \"fret 5\"\n",
                          "[bench]\nstop_block = true\n"})
    EXPECT_TRUE(fixes_set_up(electric(one))) << one;
}

TEST(SetUpOpen, OpeningTheSetUpLeavesAllOfItToThePlanAndTakesTheBlockAway)
{
  const Case asked = electric("[heater]\nbar_temperature = \"60 degC\"\n[bench]\nstop_block = "
                              "true\ndevice = \"strap\"\n");
  ASSERT_TRUE(std::any_of(asked.phases.begin(), asked.phases.end(),
                          [](const Phase &phase) { return phase.block; }));
  const Case open = with_set_up_open(asked);
  EXPECT_FALSE(fixes_set_up(open));
  EXPECT_FALSE(open.bench.stop_block);
  for (const Phase &phase : open.phases)
    EXPECT_FALSE(phase.block) << phase.name;
  EXPECT_EQ(open.phases.size(), asked.phases.size());
  EXPECT_DOUBLE_EQ(open.found.bow_centre, asked.found.bow_centre);
}

TEST(SetUpOpen, ListedPhasesStayAsTheyAre)
{
  const Case asked = electric(std::string("[bench]\nstop_block = true\n") + listed);
  const Case open = with_set_up_open(asked);
  EXPECT_TRUE(open.bench.stop_block);
  ASSERT_EQ(open.phases.size(), 1u);
  EXPECT_TRUE(open.phases[0].block);
}

TEST(Passes, AreCountedByClampings)
{
  using K = PhaseKind;
  std::vector<Phase> phases = {
      phase_of(K::warm_free, false, true, false), phase_of(K::clamp, true, false, true),
      phase_of(K::heat, true, true, false),       phase_of(K::release, false, false, false),
      phase_of(K::rest, false, false, false),     phase_of(K::clamp, true, false, true),
      phase_of(K::reread, true, true, true),      phase_of(K::release, false, false, false)};
  count_passes(phases);
  std::vector<int> pass;
  for (const Phase &phase : phases)
    pass.push_back(phase.pass);
  EXPECT_EQ(pass, (std::vector<int>{1, 1, 1, 1, 1, 2, 2, 2}));
}

// Each clamping for itself: a pull decides when it is hot, or when no hot one follows while the
// neck stays clamped.
TEST(DecidingPulls, AreTheHotOnesOrTheColdOneWithoutAHotOne)
{
  using K = PhaseKind;
  std::vector<Phase> phases = {
      phase_of(K::clamp, true, false, true),    phase_of(K::heat, true, true, false),
      phase_of(K::reread, true, true, true),    phase_of(K::reread, true, true, true),
      phase_of(K::cool, true, false, false),    phase_of(K::release, false, false, false),
      phase_of(K::clamp, true, false, true),    phase_of(K::heat, true, true, false),
      phase_of(K::release, false, false, false)};
  mark_deciding_pulls(phases);
  EXPECT_FALSE(phases[0].pull.decides);
  EXPECT_TRUE(phases[2].pull.decides);
  EXPECT_TRUE(phases[3].pull.decides);
  EXPECT_TRUE(phases[6].pull.decides) << "nothing hot follows in its own clamping";
}

TEST(DecidingPulls, OfTheSchedule)
{
  for (const char *block : {"", "[bench]\nstop_block = true\n"}) {
    const Case c = electric(block);
    EXPECT_FALSE(c.phases[0].pull.decides) << block;
    ASSERT_EQ(c.phases[2].kind, PhaseKind::reread);
    EXPECT_EQ(c.phases[2].pull.kind, Pull::Kind::to_reading) << block;
    EXPECT_TRUE(c.phases[2].pull.decides) << block;
  }
  EXPECT_TRUE(electric("[schedule]\nreread = false\n").phases[0].pull.decides);
}

TEST(DecidingPulls, OfListedPhases)
{
  const Case c = electric(std::string(listed) +
                          "[[phase]]\nkind = \"heat\"\nduration = \"1 h\"\n[[phase]]\nkind = "
                          "\"reread\"\nduration = \"5 min\"\n[[phase]]\nkind = \"release\"\n"
                          "duration = \"1 h\"\n" +
                          listed);
  EXPECT_FALSE(c.phases[0].pull.decides);
  EXPECT_TRUE(c.phases[2].pull.decides);
  EXPECT_TRUE(c.phases[4].pull.decides);
  EXPECT_EQ(c.phases[2].pass, 1);
  EXPECT_EQ(c.phases[4].pass, 2);
}

TEST(ScheduledPhases, OfTwoPassesAreClampToRestTwiceAndStrungOnce)
{
  const Case c = electric("[schedule]\nwarm_free = true\nplay = \"30 days\"\n");
  const std::vector<Phase> one = scheduled_phases(c), two = scheduled_phases(c, 2);
  using K = PhaseKind;
  std::vector<K> kinds;
  std::set<std::string> names;
  for (const Phase &phase : two) {
    kinds.push_back(phase.kind);
    EXPECT_TRUE(names.insert(phase.name).second) << phase.name;
  }
  EXPECT_EQ(kinds, (std::vector<K>{K::warm_free, K::cool, K::clamp, K::heat, K::reread, K::hold,
                                   K::cool, K::release, K::rest, K::clamp, K::heat, K::reread,
                                   K::hold, K::cool, K::release, K::rest, K::string_up, K::play}));
  EXPECT_EQ(two.size(), one.size() + 7);
  EXPECT_EQ(two[2].name, "clamp cold");
  EXPECT_EQ(two[9].name, "clamp cold, pass 2");
  EXPECT_EQ(two[8].pass, 1);
  EXPECT_EQ(two[9].pass, 2);
  EXPECT_EQ(two.back().pass, 2);
  for (const Phase &phase : two)
    EXPECT_FALSE(phase.strings && phase.kind != K::string_up && phase.kind != K::play)
        << phase.name;
  for (const std::size_t cold : {std::size_t(2), std::size_t(9)}) {
    EXPECT_FALSE(two[cold].pull.decides);
    EXPECT_TRUE(two[cold + 2].pull.decides);
  }
}

// The second pass begins as the first did: wrap off until it is heated, nut as the schedule says.
TEST(ScheduledPhases, TheSecondPassIsLikeTheFirst)
{
  const Case c = electric("[schedule]\nwrap = true\n");
  const std::vector<Phase> two = scheduled_phases(c, 2);
  for (std::size_t i = 0; i < 7; ++i) {
    const Phase &first = two[i], &second = two[i + 7];
    EXPECT_EQ(first.kind, second.kind);
    EXPECT_DOUBLE_EQ(first.duration, second.duration) << first.name;
    EXPECT_EQ(first.air.wrapped, second.air.wrapped) << first.name;
    EXPECT_EQ(first.heater, second.heater) << first.name;
    EXPECT_EQ(first.cords, second.cords) << first.name;
    EXPECT_EQ(first.nut, second.nut) << first.name;
    EXPECT_DOUBLE_EQ(first.bar_temperature, second.bar_temperature) << first.name;
  }
}
