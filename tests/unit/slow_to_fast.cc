// SPDX-License-Identifier: GPL-3.0-or-later
// What a slow and a fast line make of a plan is the range of every reading, wherever it is told:
// text, JSON, card, report. There is one setting and one history, of the middle line.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "solver/report/plan_advice.h"
#include "solver/results/text_file.h"
#include "solver/text/plan_text.h"
#include "solver/words/shop_words.h"
#include "tests/both_units.h"
#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/report/pages.h"

#include <nlohmann/json.hpp>

using namespace overbend;
using solver::Expected;
using solver::Verdict;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using tests::in_one_line;

namespace
{
// What a bench can read (trade 1.3): straightedge in m, sticks in rad.
constexpr double edge_error = 0.03e-3, sticks_error = 0.1 * 3.14159265358979323846 / 180;

cases::Case a_case(const std::string &more = "")
{
  cases::Case c =
      cases::parse_case("preset = \"electric\"\n[found]\nbow = \"0.6 mm\"\n" + more, "range.toml");
  c.board_glue.kind = "white PVA";
  return c;
}

std::string text_of(const solver::PlanReport &report)
{
  return in_one_line(solver::plan_text(report));
}
} // namespace

// The invented lines lie 0.15 mm forward and 0.1 mm back of the middle one, strung twice that.
TEST(SlowToFast, IsTheRangeOfEveryReadingWithWhatABenchCanRead)
{
  const auto report = tests::invented_report(a_case(), Verdict::do_it);
  const std::vector<Expected> all = solver::expected_readings(report);
  ASSERT_EQ(all.size(), 4u);
  for (const Expected &e : all) {
    const double times = report.the_case.phases.at(e.phase).strings ? 2 : 1;
    EXPECT_NEAR(e.high.bow - e.reading.bow, times * 0.15e-3 + edge_error, 1e-12) << e.name;
    EXPECT_NEAR(e.reading.bow - e.low.bow, times * 0.1e-3 + edge_error, 1e-12) << e.name;
    EXPECT_NEAR(e.high.bow_treble - e.reading.bow_treble, 1.03 * times * 0.15e-3 + edge_error,
                1e-12);
    EXPECT_NEAR(e.high.twist - e.reading.twist, 0.0009 + sticks_error, 1e-12) << e.name;
    EXPECT_NEAR(e.reading.twist - e.low.twist, 0.0006 + sticks_error, 1e-12) << e.name;
  }
  EXPECT_EQ(all.back().name, "strung, 7 days after release");
  EXPECT_EQ(all.back().occasion, solver::Occasion::at_date);
  EXPECT_NEAR(solver::tolerance(report).bow, (0.3e-3 + 0.2e-3) / 2 + edge_error, 1e-12);
}

// A line that does not move was not run slow and fast.
TEST(SlowToFast, IsTheErrorOfTheBenchWhereTheLineDoesNotMove)
{
  auto report = tests::invented_report(a_case(), Verdict::not_by_heat);
  report.job->line_moves = false;
  for (const Expected &e : solver::expected_readings(report))
    EXPECT_NEAR(e.high.bow - e.low.bow, 2 * edge_error, 1e-12) << e.name;
}

// A known glue has its range too.
TEST(SlowToFast, TheTextTellsItForAKnownGlueAndForOneThatIsNot)
{
  cases::Case c = a_case();
  for (const bool known : {true, false}) {
    if (!known)
      c.board_glue.kind.reset();
    const auto report = tests::invented_report(c, Verdict::do_it);
    const auto range = [](const solver::BySpeed &lines) {
      return solver::signed_length(lines[0].bow) + " with a slow line, " +
             solver::signed_length(lines[2].bow) + " with a fast one";
    };
    const std::string text = text_of(report);
    const solver::PassPlan &pass = report.job->passes.at(0);
    EXPECT_THAT(text, HasSubstr("rested it should read " + solver::bow_in_words(-0.122e-3) + " (" +
                                range(pass.released) + "); strung, " +
                                solver::bow_in_words(0.193e-3) + " (" + range(pass.strung) + ")"));
    for (const char *gone : {"THREE LINES", "Pass 1", "Two passes"})
      EXPECT_THAT(text, Not(HasSubstr(gone)));
  }
}

TEST(SlowToFast, AGlueThatIsNotKnownSaysHowFarItsLinesEndApart)
{
  cases::Case c = a_case();
  c.board_glue.kind.reset();
  const auto report = tests::invented_report(c, Verdict::do_it);
  const auto unknown = solver::unknown_that_matters_most(report);
  EXPECT_EQ(unknown.what, "Which glue holds the board.");
  EXPECT_THAT(unknown.effect, HasSubstr("0.56 mm (22 thou) apart"));
}

TEST(SlowToFast, TheJsonHasLowAndHighOfEachReading)
{
  const cases::Case c = a_case();
  const auto report = tests::invented_report(c, Verdict::do_it);
  const auto json = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  const std::vector<Expected> all = solver::expected_readings(report);
  ASSERT_EQ(json["expected"].size(), all.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(json["expected"][i]["name"], all[i].name);
    EXPECT_DOUBLE_EQ(json["expected"][i]["low"]["bow_centre_m"].get<double>(), all[i].low.bow);
    EXPECT_DOUBLE_EQ(json["expected"][i]["high"]["twist_rad"].get<double>(), all[i].high.twist);
  }
  const auto &pass = json["job"]["passes"].at(0);
  const char *const speeds[] = {"slow", "middle", "fast"};
  for (unsigned k = 0; k < 3; ++k) {
    EXPECT_DOUBLE_EQ(pass["strung"][speeds[k]]["bow_centre_m"].get<double>(),
                     report.job->passes[0].strung[k].bow);
    EXPECT_DOUBLE_EQ(pass["released"][speeds[k]]["twist_rad"].get<double>(),
                     report.job->passes[0].released[k].twist);
  }
  EXPECT_NEAR(pass["cold"]["bow_centre_m"].get<double>(), 0, 1e-12);
  EXPECT_NEAR(pass["overbend"]["bow_centre_m"].get<double>(), -1.313e-3, 1e-12);
  EXPECT_EQ(json["format_number"], 7);
  EXPECT_EQ(json["verdict"]["word"], "do_it");
  EXPECT_FALSE(json["verdict"]["refused"].get<bool>());
}

TEST(SlowToFast, CardAndReportShowIt)
{
  const tests::TemporaryFolder folder;
  solver::write_text_file(folder.file("plan.json"), tests::invented_plan(a_case(), Verdict::do_it));
  viz::write_pages(folder.file(""));
  for (const char *page : {"bench-card.html", "report.html"}) {
    const std::string html = tests::contents(folder.file(page));
    for (const char *shown : {"/expected/0/high/bow_centre_m", "/expected/0/low/bow_centre_m",
                              "/expected/3/high/bow_centre_m", "/expected/3/low/bow_centre_m"})
      EXPECT_THAT(html, HasSubstr(std::string("data-value=\"") + shown)) << page;
  }
  EXPECT_THAT(tests::text_of_html(tests::contents(folder.file("bench-card.html"))),
              HasSubstr("slow to fast"));
}

// The overbend is 1.324 mm past straight as the model reads, with 0.011 mm as built.
TEST(PassInShort, ColdOnlyStraightAndTheOverbendHot)
{
  const std::string text = text_of(tests::invented_report(a_case(), Verdict::do_it));
  EXPECT_THAT(text, HasSubstr("Clamp it cold to straight, twist none; hot, when the line is soft, "
                              "to 1.31 mm (52 thou) back-bow"));
  EXPECT_THAT(text, HasSubstr("Read it hot at 0:45 and set the overbend"));
}

TEST(PassInShort, WithoutAHotReadingTheOverbendIsPulledCold)
{
  const std::string text =
      text_of(tests::invented_report(a_case("[schedule]\nreread = false\n"), Verdict::do_it));
  EXPECT_THAT(text, HasSubstr("Clamp it cold to 1.31 mm (52 thou) back-bow"));
  for (const char *hot : {"when the line is soft, to", "set the overbend", "cold to straight"})
    EXPECT_THAT(text, Not(HasSubstr(hot)));
}

TEST(TwoPasses, AreToldOneByOneWithWhatTheSecondHangsOn)
{
  auto report = tests::invented_report(tests::two_passes(), Verdict::do_it);
  report.job->passes.at(0).limit = solver::Limit::fast_line;
  const std::string text = text_of(report);
  for (const char *held :
       {"Pass 1: clamp it cold to straight", "Pass 2: clamp it cold to straight",
        "to 1.51 mm (60 thou) back-bow",
        "It stops short of the target because a line that turns out fast would end back-bowed, "
        "strung, which no rod here mends: read it after this pass and plan again from there.",
        "[first_pass] overbend = \"-1.31 mm\"",
        "Two passes. The second one hangs on how fast this glue line is", "Never a third"})
    EXPECT_THAT(text, HasSubstr(held));
  std::vector<std::string> names;
  for (const Expected &e : solver::expected_readings(report))
    names.push_back(e.name);
  EXPECT_THAT(names, ElementsAre("right after release, pass 1", "before the second pass",
                                 "right after release, pass 2", "just before the strings",
                                 "strung, right after", "strung, 7 days after release"));
}

// By hand from the invented plan: lines that are let up alike have one row, and the readings after
// the pass may still ask for a second.
TEST(SecondReading, SaysWhatItReadsAndWhatIsLetUp)
{
  auto report = tests::invented_report(a_case("[schedule]\nhold = \"3 h\"\nsecond_reread = true\n"),
                                       Verdict::do_it);
  const std::string text = text_of(report);
  for (const char *held :
       {"At 2:20 read it hot a second time.", "-1.91 mm (-75 thou) slow leave it",
        "-1.95 mm (-77 thou) of middle speed leave it",
        "-2.24 mm (-88 thou) fast let it up to -0.55 mm (-21 thou)",
        "a fast line ends at +0.24 mm (+9.6 thou), strung; left as it is it would end at -0.95 mm "
        "(-38 thou)",
        "the second reading, at 2:20, tells more", "add these lines to the case"})
    EXPECT_THAT(text, HasSubstr(held));
  EXPECT_THAT(text, Not(HasSubstr("faster let it up")));
  // Apart, each has its own.
  report.job->passes[0].second->faster.front().to.bow = -0.41e-3;
  EXPECT_THAT(text_of(report), HasSubstr("-2.24 mm (-88 thou) faster let it up to -0.40 mm"));
  // Asked for by the case where nothing would have to be let up.
  report.job->passes[0].second.reset();
  EXPECT_THAT(text_of(report),
              AllOf(HasSubstr("write the readings down. What pulls stays as it is."),
                    Not(HasSubstr("let it up"))));
}

// Each pass has its own stages, and each of its readings the range of that pass.
TEST(TwoPasses, HaveStagesAndRangesOfTheirOwn)
{
  auto report = tests::invented_report(tests::two_passes(), Verdict::do_it);
  std::vector<std::string> names;
  for (const solver::Stage &stage : solver::stages(report.the_case))
    names.push_back(stage.name);
  EXPECT_THAT(names, ElementsAre("in the clamp, cold", "in the clamp, hot, set again",
                                 "end of the heat", "released", "in the clamp, cold, pass 2",
                                 "in the clamp, hot, set again, pass 2", "end of the heat, pass 2",
                                 "released, pass 2", "strung", "strung, 7 days after release"));
  // A slow line that differs after the second pass alone.
  for (solver::Reading &line : report.job->passes[0].released)
    line = report.job->passes[0].released[1];
  const std::vector<Expected> all = solver::expected_readings(report);
  EXPECT_NEAR(all[0].high.bow - all[0].low.bow, 2 * edge_error, 1e-12);
  EXPECT_NEAR(all[2].high.bow - all[2].low.bow, 0.25e-3 + 2 * edge_error, 1e-12);
}

TEST(HeatInShort, SaysWhatDecidedAndWhatMoreWouldBring)
{
  auto report = tests::invented_report(a_case(), Verdict::do_it);
  const std::string text = text_of(report);
  EXPECT_THAT(text, HasSubstr("Hold the bar at 65 degC (149 degF) (the glue line decides), stop at "
                              "68 degC (154 degF)"));
  EXPECT_THAT(text, HasSubstr("keeps 42 % of the clamped way; one degree more would keep 44 %, one "
                              "hour more 43 %"));
  report.the_case.schedule.wrap = false;
  report.job->heat.wrap = solver::WrapReason::back_would_print;
  EXPECT_THAT(text_of(report), HasSubstr("Do not wrap the neck: the warm back would print"));
  report.the_case.schedule.wrap = true;
  EXPECT_THAT(text_of(report),
              HasSubstr("Wrap dry cloth around all wood that the bar does not cover"));
  report.the_case.schedule.wrap_foil = true;
  EXPECT_THAT(text_of(report), HasSubstr("Wrap kitchen foil and then dry cloth around all wood"));
}
