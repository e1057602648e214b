// SPDX-License-Identifier: GPL-3.0-or-later
// The kinds of verdict, how they join, and the limits of heat by place.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/job/set_up_changes.h"
#include "solver/verdict/verdict.h"
#include "tests/unit/sound_case.h"

#include <array>

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using tests::celsius;
using tests::sound_case;

TEST(HeatLimits, EachPlaceHasItsOwn)
{
  const auto limits = [](const cases::Case &c) {
    const solver::HeatLimits l = solver::heat_limits(c, materials::tables());
    return std::array<double, 3>{l.glue_line - celsius, l.surface - celsius, l.fret_tops - celsius};
  };
  const auto expect = [&](const cases::Case &c, double line, double surface, double frets,
                          const char *what) {
    const auto got = limits(c);
    EXPECT_NEAR(got[0], line, 1e-9) << what;
    EXPECT_NEAR(got[1], surface, 1e-9) << what;
    EXPECT_NEAR(got[2], frets, 1e-9) << what;
  };
  cases::Case c = sound_case();
  expect(c, 60, 65, 68, "known glue, hard finish, no binding");
  // Dry hide glue itself would bear 80 degC (table); the neck does not get more for it.
  c.board_glue.kind = "hot hide";
  expect(c, 60, 65, 68, "hide");
  c = sound_case();
  c.board_glue.kind.reset();
  expect(c, 50, 65, 57, "glue not known");
  c = sound_case();
  c.finish = cases::Finish::unknown;
  expect(c, 50, 57, 57, "finish not known");
  c = sound_case();
  c.binding = cases::Binding::plastic;
  expect(c, 60, 60, 63, "plastic binding");
  c = sound_case();
  c.binding = cases::Binding::unknown;
  expect(c, 60, 57, 57, "binding not known");
  c = sound_case();
  c.faces.board.kind = cases::Finish::nitro_lacquer;
  expect(c, 60, 60, 63, "lacquer on the board");
  EXPECT_THAT(solver::heat_limits(c, materials::tables()).surface_reason, HasSubstr("nitro"));
}

// Everything milder than nothing_to_do is done; the words are those of plan.json, stable.
TEST(VerdictKinds, RefuseFromNothingToDoOnAndHaveWords)
{
  const std::vector<std::pair<Verdict::Kind, const char *>> kinds = {
      {Verdict::do_it, "do_it"},
      {Verdict::with_cautions, "with_cautions"},
      {Verdict::changed, "changed"},
      {Verdict::nothing_to_do, "nothing_to_do"},
      {Verdict::condition_first, "condition_first"},
      {Verdict::not_by_heat, "not_by_heat"},
      {Verdict::do_not, "do_not"}};
  bool refused = false;
  for (const auto &[kind, word] : kinds) {
    Verdict v;
    v.kind = kind;
    refused = refused || kind == Verdict::nothing_to_do;
    EXPECT_EQ(v.refused(), refused) << word;
    EXPECT_EQ(solver::word(kind), word);
    EXPECT_FALSE(solver::in_words(kind).empty());
  }
}

TEST(VerdictKinds, JoinKeepsTheStricterAndEverySentenceOnce)
{
  Verdict v;
  v.refuse("a", {"c"}, Verdict::not_by_heat);
  v.refuse("a", {"c", "d"}, Verdict::nothing_to_do);
  v.caution("b");
  EXPECT_EQ(v.kind, Verdict::not_by_heat);
  EXPECT_THAT(v.reasons, ::testing::ElementsAre("a"));
  EXPECT_THAT(v.alternatives, ::testing::ElementsAre("c", "d"));
  EXPECT_THAT(v.cautions, ::testing::ElementsAre("b"));
}

// A set-up that the case asks for and that does not do gives way to the plan's; both are said.
TEST(VerdictKinds, AChangedSetUpSaysWhatIsChangedAndWhyItWasNotAsAsked)
{
  cases::Case asked = sound_case();
  cases::Case planned = asked;
  planned.heater.bar_temperature = celsius + 66;
  asked.heater.bar_temperature = celsius + 50;
  planned.bench.device = cases::Device::strap;
  asked.bench.stop_block = true;
  planned.schedule.wrap = true;
  asked.schedule.wrap = false;
  const auto changes = solver::changes_in_words(asked, planned);
  EXPECT_THAT(changes, ::testing::Contains(HasSubstr("Bar at 66 degC (151 degF) instead of 50 degC "
                                                     "(122 degF)")));
  EXPECT_THAT(changes, ::testing::Contains(HasSubstr("Pull with the strap instead of the ")));
  EXPECT_THAT(changes, ::testing::Contains("Wrap the neck in dry cloth."));
  EXPECT_THAT(changes, ::testing::Contains("No stop block."));
  EXPECT_EQ(changes.size(), 4u);
  EXPECT_THAT(solver::changes_in_words(planned, planned), IsEmpty());
  Verdict v;
  v.caution("mind");
  v.change(changes, {"too cold."});
  EXPECT_EQ(v.kind, Verdict::changed);
  EXPECT_FALSE(v.refused());
  EXPECT_EQ(v.reasons.size(), 5u);
  EXPECT_EQ(v.reasons.back(), "As asked: too cold.");
}
