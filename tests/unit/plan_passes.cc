// SPDX-License-Identifier: GPL-3.0-or-later
// Clock, steps and words of a plan of two passes; what the probe and the hot re-reading tell.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "cases/text/units.h"
#include "solver/report/pass_clock.h"
#include "solver/report/step_words.h"
#include "solver/text/plan_text.h"
#include "solver/words/shop_words.h"
#include "tests/both_units.h"
#include "tests/unit/invented_plan.h"

#include <nlohmann/json.hpp>

#include <stdexcept>

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using tests::bare_numbers;
using tests::in_one_line;

namespace
{
std::string text_of(const solver::PlanReport &report)
{
  return in_one_line(solver::plan_text(report));
}

unsigned count(const std::string &text, const std::string &what)
{
  unsigned n = 0;
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += what.size())
    ++n;
  return n;
}

cases::Case one_pass()
{
  cases::Case c = cases::preset_case("electric");
  c.board_glue.kind = "white PVA";
  c.bench.device = cases::Device::posts;
  return c;
}
} // namespace

// By hand from the durations of the schedule: both passes take the same time.
TEST(PassClock, StartsAnewWithTheHeatOfEachPass)
{
  const cases::Case c = tests::two_passes();
  const cases::Schedule &s = c.schedule;
  const double clamped = s.heat + s.reread_time + s.hold + s.cool;
  const double pass = s.clamp + clamped + s.release + s.rest;
  for (const int number : {1, 2}) {
    const solver::PassClock clock = solver::pass_clock(c, number);
    EXPECT_NEAR(clock.start, (number - 1) * pass, 1e-6);
    EXPECT_NEAR(clock.zero - clock.start, s.clamp, 1e-6);
    EXPECT_NEAR(clock.release_on_clock(), clamped, 1e-6);
  }
  EXPECT_NEAR(solver::pass_clock(c, 1).end, pass, 1e-6);
  EXPECT_EQ(solver::number_of_passes(c), 2);
  EXPECT_THROW(solver::pass_clock(c, 3), std::out_of_range);
}

TEST(PassClock, TheFirstPhaseIsItsZeroWithoutHeatInTheClamp)
{
  cases::Case c = tests::two_passes();
  for (cases::Phase &phase : c.phases)
    phase.heater = false;
  EXPECT_NEAR(solver::pass_clock(c, 2).zero, solver::pass_clock(c, 2).start, 1e-9);
}

// The strings go on after the second release, and are counted from there.
TEST(TwoPasses, EveryStepIsToldByTheClockOfItsPass)
{
  const cases::Case c = tests::two_passes();
  const std::string text = text_of(tests::invented_report(c, Verdict::do_it));
  EXPECT_THAT(text, HasSubstr("Each pass has its own clock"));
  EXPECT_EQ(count(text, " 0:00: heat, "), 2u);
  EXPECT_EQ(count(text, " 0:45: read again hot, "), 2u);
  const std::string rest = cases::clock(c.schedule.release + c.schedule.rest);
  EXPECT_EQ(count(text, rest + " after release: string up"), 1u);
  EXPECT_THAT(text, Not(HasSubstr("after release: heat")));
  EXPECT_THAT(bare_numbers(text), IsEmpty());
}

TEST(TwoPasses, AreHeadedAndWhatIsSetUpAsBeforeIsSaidSo)
{
  const std::string text = text_of(tests::invented_report(tests::two_passes(), Verdict::do_it));
  for (const char *once : {" PASS 1 ", " PASS 2 ", "Cradle under the back", "Bar on the board from",
                           "Set it up as before.", "Bar, iron, probe and wrap as before."})
    EXPECT_EQ(count(text, once), 1u) << once;
  EXPECT_THAT(text, HasSubstr("enter it in the case as [first_pass] and plan again; do that plan"));
  EXPECT_THAT(text, Not(HasSubstr("heat, pass 2, ")));
  EXPECT_THAT(text_of(tests::invented_report(one_pass(), Verdict::do_it)),
              Not(HasSubstr("PASS 1")));
}

TEST(TwoPasses, EachHasItsCordsAndClockInShort)
{
  const cases::Case c = tests::two_passes();
  const std::string text = text_of(tests::invented_report(c, Verdict::do_it)),
                    short_text = text.substr(0, text.find("WHAT TO DO"));
  const std::string let_go =
      "Let go at " + solver::clock_face(solver::pass_clock(c, 2).release_on_clock()) + ".";
  for (const std::string &twice : {std::string("Cold, from just taut: "), let_go,
                                   std::string("Read it hot at 0:45 and set the overbend")})
    EXPECT_EQ(count(short_text, twice), 2u) << twice;
  EXPECT_THAT(short_text, Not(HasSubstr("after release. ")));
}

TEST(TwoPasses, AreCountedByTheirOwnClocksInTheJson)
{
  const cases::Case c = tests::two_passes();
  const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  ASSERT_EQ(plan.at("clocks").size(), 2u);
  for (const auto &phase : plan.at("columns").at(0).at("phases")) {
    const auto &clock = plan.at("clocks").at(phase.at("pass").get<std::size_t>() - 1);
    EXPECT_NEAR(phase.at("start_on_clock_s").get<double>() + clock.at("zero_s").get<double>(),
                phase.at("start_s").get<double>(), 1e-6);
  }
  EXPECT_NEAR(plan.at("clocks").at(1).at("release_on_clock_s").get<double>(),
              plan.at("clocks").at(0).at("release_on_clock_s").get<double>(), 1e-6);
  EXPECT_EQ(plan.at("job").at("passes").at(1).at("pass"), 2);
}

// The invented probe shows 47.4 degC at the edge, the middle has 56.1: 8.7 degC more.
TEST(Probe, AtTheEdgeShowsLessThanTheMiddleAndThePlanSaysByHowMuch)
{
  solver::PlanReport report = tests::invented_report(one_pass(), Verdict::do_it);
  const std::string at_edge = text_of(report);
  EXPECT_THAT(at_edge,
              HasSubstr("When the probe shows 47 degC (117 degF), the line beside it has 56 "
                        "degC (133 degF) in its middle"));
  EXPECT_THAT(at_edge, HasSubstr("a probe at the edge shows 9 degC (16 degF) less"));
  report.the_case.probe.across = 0;
  EXPECT_THAT(text_of(report), Not(HasSubstr("a probe at the edge")));
  report.line_heat.reset();
  EXPECT_EQ(solver::line_beside_probe(report), "");
}

// A faster line has run on further, is softer to bend and ends further back.
TEST(HotReading, SaysWhatEachOutcomeMeans)
{
  const solver::PlanReport report = tests::invented_report(one_pass(), Verdict::do_it);
  const std::string text = text_of(report);
  const auto &released = report.job->passes[0].released;
  EXPECT_THAT(text, HasSubstr("fewer turns, the line is faster than planned and ends further back "
                              "(a fast one: released and rested " +
                              solver::bow_in_words(released[2].bow)));
  EXPECT_THAT(text,
              HasSubstr("more turns, the line is slower and ends further forward (a slow one: "
                        "released and rested " +
                        solver::bow_in_words(released[0].bow)));
  EXPECT_THAT(text, HasSubstr("Lift the bar only as long as it takes to read"));
}

// A strap, a bar or a caul is not drawn by the buttons of the tuners.
TEST(TakeUp, IsToldInTurnsOnlyWhereTunersPull)
{
  cases::Case c = one_pass();
  EXPECT_THAT(text_of(tests::invented_report(c, Verdict::do_it)), HasSubstr("button turns"));
  c.bench.device = cases::Device::strap;
  const std::string text = text_of(tests::invented_report(c, Verdict::do_it));
  EXPECT_THAT(text, HasSubstr("strap take up 11.3 mm (0.45 in)."));
  EXPECT_THAT(text, Not(HasSubstr("button")));
  EXPECT_THAT(text, Not(HasSubstr("Turns are")));
  const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  EXPECT_TRUE(plan.at("cord_per_button_turn_m").is_null());
}

// In a second pass each line is clamped for itself: what slow and fast lines end at is no outcome
// of one setting.
TEST(HotReading, OfASecondPassTellsNoReadingsOfOtherLines)
{
  const std::string text = text_of(tests::invented_report(tests::two_passes(), Verdict::do_it));
  EXPECT_EQ(count(text, "the line is faster than planned"), 2u);
  EXPECT_EQ(count(text, "a fast one: released and rested"), 1u);
}

TEST(Refusal, GivesNoOrders)
{
  for (const cases::Case &c : {one_pass(), tests::two_passes()})
    for (const Verdict::Kind kind : {Verdict::nothing_to_do, Verdict::condition_first,
                                     Verdict::not_by_heat, Verdict::do_not}) {
      solver::PlanReport report = tests::invented_report(c, kind);
      report.verdict.of_the_neck = {"A truth about the neck."};
      const std::string text = text_of(report);
      for (const char *order :
           {"WHAT TO DO", "IN SHORT", "clamp it", "Clamp it", "Hold the bar", "take up", "Let go",
            "button turn", "Set it", "Stop at", "Glasses", "A caution about"})
        EXPECT_THAT(text, Not(HasSubstr(order))) << order;
      for (const char *held :
           {"WHAT WAS TRIED", "nothing of it is to be done", "Pass 1: clamped at",
            "A truth about the neck", "These are estimates"})
        EXPECT_THAT(text, HasSubstr(held)) << held;
      EXPECT_THAT(bare_numbers(text), IsEmpty());
      const auto plan = nlohmann::json::parse(solver::plan_json(report, {}));
      EXPECT_EQ(plan.at("verdict").at("cautions").size(), 1u);
      EXPECT_EQ(plan.at("standing_cautions").size(), 1u);
    }
}

TEST(Refusal, NamesTheSetUpsThatWereTriedAndWhatStoppedThem)
{
  solver::PlanReport report = tests::invented_report(one_pass(), Verdict::do_not);
  solver::TriedSetUp strap, bar;
  strap.bench.device = cases::Device::strap;
  strap.limit = solver::Limit::strength;
  strap.limit_place = solver::Region::shaft;
  strap.strung.bow = 0.4e-3;
  bar.bench.device = cases::Device::headstock_bar;
  report.job->tried = {strap, bar};
  const std::string text = text_of(report);
  EXPECT_THAT(text,
              HasSubstr("Strap: after one pass 0.40 mm (16 thou) forward, twist none, strung; "
                        "stopped by the strength of the shaft."));
  EXPECT_THAT(text, HasSubstr("Bar across the headstock: after one pass straight"));
}

// What heat and strings cannot have made is told with the diagnosis.
TEST(Diagnosis, SaysHowMuchHeatAndStringsExplain)
{
  solver::PlanReport report = tests::invented_report(one_pass(), Verdict::do_it);
  solver::Diagnosis &d = report.columns[0].diagnosis;
  d.found.bow = 1.5e-3;
  d.ceiling = 0.5e-3;
  EXPECT_THAT(text_of(report),
              HasSubstr("explain at most 0.50 mm (20 thou) of the 1.50 mm (59 thou)"));
  d.found.bow = 0.4e-3;
  EXPECT_THAT(text_of(report), HasSubstr("can explain all of it: up to 0.50 mm (20 thou)"));
}

// The invented neck keeps 0.383 of a bonded bow elastically, and the plan counts on 0.352.
TEST(Diagnosis, SaysWhatAFreeLineWouldKeepAndWhatThisOneKeeps)
{
  const std::string text = text_of(tests::invented_report(one_pass(), Verdict::do_it));
  EXPECT_THAT(text, HasSubstr("a line that slips freely would keep 62 % of the bow"));
  EXPECT_THAT(text, HasSubstr("This one keeps 35 % of the bow"));
}
