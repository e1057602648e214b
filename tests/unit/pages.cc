// SPDX-License-Identifier: GPL-3.0-or-later
// Bench card, report and index as files: what they hold and what they must not hold. How they look
// and behave in a browser is checked by tests/browser/run.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "solver/results/file_error.h"
#include "solver/results/record.h"
#include "solver/results/text_file.h"
#include "tests/both_units.h"
#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/page/html.h"
#include "viz/report/pages.h"
#include "viz/view/surface.h"

#include <nlohmann/json.hpp>

#include <cstdlib>

using namespace overbend;
using solver::Verdict;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

namespace
{
class Pages : public ::testing::Test
{
protected:
  void write(Verdict::Kind kind, bool simulated = true)
  {
    cases::Case c = cases::preset_case("electric");
    c.title = "A neck <of> \"no\" one & all";
    c.board_glue.kind = "white PVA";
    c.binding = cases::Binding::unknown;
    c.found.twist = 0.0044;
    write_plan(tests::invented_plan(c, kind, simulated));
  }
  void write_plan(const std::string &json)
  {
    solver::write_text_file(folder.file("plan.json"), json);
    viz::write_pages(folder.file(""));
  }
  // A plan of the electric preset, with more in its case.
  void with(const std::string &more)
  {
    cases::Case c =
        cases::parse_case("preset = \"electric\"\n[found]\nbow = \"0.6 mm\"\n" + more, "a.toml");
    c.title = "A neck";
    c.board_glue.kind = "white PVA";
    write_plan(tests::invented_plan(c, Verdict::do_it));
  }
  std::string page(const std::string &name) const { return tests::contents(folder.file(name)); }
  void write_with_block()
  {
    cases::Case c = cases::preset_case("electric");
    c.board_glue.kind = "white PVA";
    for (cases::Phase &phase : c.phases)
      phase.block = phase.cords;
    solver::PlanReport report = tests::invented_report(c, Verdict::with_cautions);
    for (auto &end : report.columns[0].history.phases)
      if (c.phases[end.phase].pull.decides && c.phases[end.phase].kind == cases::PhaseKind::reread)
        end.block_below = 8.13e-3;
    write_plan(solver::plan_json(report, {}));
  }
  // Status of the check that reads pages and plan.json.
  int numbers_differ() const
  {
    const std::string command =
        "python3 '" OVERBEND_SOURCE_DIR "/tests/unit/page_numbers.py' '" + folder.file("") + "'";
    return std::system(command.c_str());
  }

  tests::TemporaryFolder folder;
};
} // namespace

TEST_F(Pages, EveryNumberOnCardAndReportEqualsThePlan)
{
  write(Verdict::with_cautions);
  EXPECT_EQ(numbers_differ(), 0);
}

TEST_F(Pages, BothUnitsStandBesideEveryNumberOfCardReportAndIndex)
{
  for (const Verdict::Kind kind : {Verdict::with_cautions, Verdict::not_by_heat}) {
    write(kind);
    for (const char *name : {"bench-card.html", "report.html", "index.html"}) {
      const std::string text = tests::text_of_html(page(name));
      EXPECT_THAT(text, HasSubstr("A neck"));
      EXPECT_THAT(tests::bare_numbers(text), IsEmpty()) << name;
    }
  }
}

TEST_F(Pages, WornFretsNeckAngleAndMonthsOfPlayAreOnCardAndReport)
{
  with("[readings]\nfret_heights = \"5: -4 thou, 7: -10 thou\"\nover_bridge = \"-5 mm\"\n"
       "over_bridge_from = \"0 mm\"\nover_bridge_to = \"3 mm\"\n[schedule]\nplay = \"1 year\"\n");
  EXPECT_EQ(numbers_differ(), 0);
  const std::string card = tests::text_of_html(page("bench-card.html")),
                    report = tests::text_of_html(page("report.html"));
  for (const char *held : {"Frets not level", "Neck angle too low", "Later", "january"})
    EXPECT_THAT(card, HasSubstr(held));
  for (const char *held :
       {"Frets against the level ones", "Neck angle:", "Lived with afterwards", "least twist"})
    EXPECT_THAT(report, HasSubstr(held));
  EXPECT_THAT(tests::bare_numbers(card), IsEmpty());
  EXPECT_THAT(tests::bare_numbers(report), IsEmpty());
  with("[readings]\nedge_on = \"wood\"\n");
  EXPECT_EQ(numbers_differ(), 0);
  EXPECT_THAT(tests::text_of_html(page("bench-card.html")), HasSubstr("over the wood at frets"));
  EXPECT_THAT(tests::text_of_html(page("report.html")),
              HasSubstr("notched straightedge on the wood"));
}

// Cold only straight; the overbend is the hot setting, with its own heading and clock.
TEST_F(Pages, TheCardHasAColdAndAHotSetting)
{
  write(Verdict::with_cautions);
  const std::string card = tests::text_of_html(page("bench-card.html"));
  for (const char *held :
       {"Clamp cold only straight", "From just taut", "See that everything holds",
        "Hot, at 0:45, set it to", "read hot, set the overbend"})
    EXPECT_THAT(card, HasSubstr(held));
  for (const char *held : {"then hot to", "the line is faster than planned"})
    EXPECT_THAT(tests::text_of_html(page("report.html")), HasSubstr(held));
  EXPECT_THAT(card, HasSubstr("there the line has 56"));
}

TEST_F(Pages, WithoutAHotReadingTheOneSettingIsCold)
{
  with("[schedule]\nreread = false\n");
  EXPECT_EQ(numbers_differ(), 0);
  const std::string card = tests::text_of_html(page("bench-card.html"));
  EXPECT_THAT(card, HasSubstr("Clamp cold to"));
  for (const char *hot : {"Hot, at", "only straight", "clamp cold, straight", "set the overbend"})
    EXPECT_THAT(card, Not(HasSubstr(hot)));
  EXPECT_THAT(tests::text_of_html(page("report.html")), Not(HasSubstr("then hot")));
}

// By hand from the invented plan: lines that are let up alike have one row.
TEST_F(Pages, ASecondHotReadingTellsWhatToLetUp)
{
  with("[schedule]\nhold = \"3 h\"\nsecond_reread = true\n");
  EXPECT_EQ(numbers_differ(), 0);
  const std::string card = tests::text_of_html(page("bench-card.html"));
  for (const char *held : {"Hot again, at 2:20", "-1.95 -77", "leave it", "-2.24 -88",
                           "let up to -0.55 -21", "read hot again"})
    EXPECT_THAT(card, HasSubstr(held));
  EXPECT_THAT(card.substr(card.find("let up to") + 1), Not(HasSubstr("let up to")));
  const std::string report = tests::text_of_html(page("report.html"));
  for (const char *held : {"Second hot reading", "left as it is it would end at -0.95 mm"})
    EXPECT_THAT(report, HasSubstr(held));
}

TEST_F(Pages, ASecondHotReadingThatLetsNothingUpIsForTheRecord)
{
  with("[schedule]\nhold = \"3 h\"\nsecond_reread = true\n");
  auto plan = nlohmann::json::parse(page("plan.json"));
  plan["job"]["passes"][0]["second_reading"] = nullptr;
  plan["second_hot_reading"] = nullptr;
  write_plan(plan.dump());
  EXPECT_EQ(numbers_differ(), 0);
  EXPECT_THAT(tests::text_of_html(page("bench-card.html")),
              AllOf(HasSubstr("read hot again, write it down"), Not(HasSubstr("let it up"))));
}

// The card is for the pass at hand: what comes after it is planned from what it left.
TEST_F(Pages, OfTwoPassesTheCardTellsTheFirstAndSendsBackToThePlan)
{
  write_plan(tests::invented_plan(tests::two_passes(), Verdict::do_it));
  EXPECT_EQ(numbers_differ(), 0);
  const std::string card = tests::text_of_html(page("bench-card.html"));
  for (const char *held : {"plan the second pass", "released", "rested"})
    EXPECT_THAT(card, HasSubstr(held));
  // What is strung in the end belongs to the second pass.
  EXPECT_THAT(page("bench-card.html"), Not(HasSubstr("/expected/2/")));
  EXPECT_THAT(tests::bare_numbers(card), IsEmpty());
  EXPECT_THAT(tests::text_of_html(page("report.html")), HasSubstr("clamp cold, pass 2"));
}

// A phone at the bench: steps say what their time counts from, and the plan has a code by which the
// script keeps what was ticked off. A refusal has nothing to run.
TEST_F(Pages, TheCardHasAClockToRunUnlessItRefuses)
{
  write(Verdict::do_it);
  const std::string card = page("bench-card.html");
  EXPECT_THAT(card, HasSubstr("<div id=\"running\"></div>"));
  EXPECT_THAT(card, HasSubstr("data-step=\"release\""));
  EXPECT_THAT(card, HasSubstr("data-from=\"release\""));
  EXPECT_THAT(card, HasSubstr("script-src 'sha256-"));
  EXPECT_THAT(card, HasSubstr("<body data-plan="));
  write(Verdict::do_not);
  EXPECT_THAT(page("bench-card.html"), Not(HasSubstr("<script")));
}

TEST_F(Pages, TheCardTellsTheHeightOfAStopBlock)
{
  write_with_block();
  EXPECT_EQ(numbers_differ(), 0);
  EXPECT_THAT(page("bench-card.html"), HasSubstr("Stop block: top"));
  EXPECT_THAT(page("bench-card.html"), HasSubstr("data-value=\"/set_up/stop_block_below_rest_m\""));
  EXPECT_THAT(page("report.html"), HasSubstr("the height of the stop block decides"));
  write(Verdict::with_cautions);
  EXPECT_THAT(page("bench-card.html"), Not(HasSubstr("Stop block")));
}

TEST_F(Pages, ARefusalBeforeAnyRunShowsNoSetUp)
{
  write(Verdict::do_not, false);
  EXPECT_EQ(numbers_differ(), 0);
  EXPECT_THAT(page("bench-card.html"), HasSubstr("<h2 class=\"no\">"));
  EXPECT_THAT(page("bench-card.html"), HasSubstr("A reason, at 66 °C (151 °F)."));
  for (const char *set_up : {"<svg", "Clamp cold", "stop at", "Clock"})
    EXPECT_THAT(page("bench-card.html"), Not(HasSubstr(set_up)));
  EXPECT_THAT(page("report.html"), Not(HasSubstr("The plan</h2>")));
}

TEST_F(Pages, ARefusalAfterARunShowsNoSetUpOnTheCardAndSaysSoInTheReport)
{
  write(Verdict::not_by_heat);
  EXPECT_EQ(numbers_differ(), 0);
  EXPECT_THAT(page("bench-card.html"), HasSubstr(">not by heat<"));
  for (const char *set_up : {"<svg", "Clamp cold", "stop at", "Clock"})
    EXPECT_THAT(page("bench-card.html"), Not(HasSubstr(set_up)));
  EXPECT_THAT(page("report.html"), HasSubstr("<summary>What was tried, not to be done</summary>"));
  EXPECT_THAT(page("report.html"), HasSubstr("advise against it"));
  for (const char *order : {"Let go at", "What to pull", "second pass", "Clamp it", "<svg class",
                            "never left alone", "take up"})
    EXPECT_THAT(page("report.html"), Not(HasSubstr(order))) << order;
}

TEST_F(Pages, ThePolicyAllowsWhatIsInThePageByItsHashAndNothingElse)
{
  write(Verdict::with_cautions);
  for (const char *name : {"bench-card.html", "report.html", "index.html"}) {
    const std::string text = page(name);
    EXPECT_THAT(text, HasSubstr("default-src 'none'"));
    EXPECT_THAT(text, Not(HasSubstr("unsafe-inline")));
    for (const char *outside : {" style=\"", "src=\"http", "href=\"http", "src=\"//", "href=\"//"})
      EXPECT_THAT(text, Not(HasSubstr(outside))) << name;
  }
}

TEST_F(Pages, TextsFromTheCaseDoNotBecomeTags)
{
  write(Verdict::with_cautions);
  for (const char *name : {"bench-card.html", "report.html", "index.html"}) {
    EXPECT_THAT(page(name), HasSubstr("A neck &lt;of&gt; &quot;no&quot; one &amp; all"));
    EXPECT_THAT(page(name), Not(HasSubstr("<of>")));
  }
}

TEST_F(Pages, TheIndexNamesTheCardFirst)
{
  write(Verdict::with_cautions);
  solver::write_text_file(folder.file("results.xdmf"), "x");
  viz::write_pages(folder.file(""));
  const std::string text = page("index.html");
  const std::size_t card = text.find("bench-card.html"), report = text.find("report.html"),
                    fields = text.find("results.xdmf");
  EXPECT_LT(card, report);
  EXPECT_LT(report, fields);
  EXPECT_NE(fields, std::string::npos);
}

TEST_F(Pages, WithoutThePlottingProgramTheReportEndsWellAndSaysWhy)
{
  const std::string path = std::getenv("PATH");
  setenv("PATH", folder.file("nothing").c_str(), 1);
  write(Verdict::with_cautions);
  setenv("PATH", path.c_str(), 1);
  EXPECT_THAT(page("report.html"), HasSubstr("plots are missing because the program gnuplot"));
  EXPECT_THAT(page("report.html"), Not(HasSubstr("data:image/svg+xml")));
  EXPECT_EQ(numbers_differ(), 0); // the tables are there
}

TEST_F(Pages, PlotsAreDrawnWithAnAlternativeText)
{
  write(Verdict::with_cautions);
  const std::string text = page("report.html");
  unsigned plots = 0;
  for (std::size_t at = 0; (at = text.find("src=\"data:image/svg+xml", at)) != text.npos; ++at) {
    const std::string tag = text.substr(text.rfind('<', at), at - text.rfind('<', at));
    EXPECT_THAT(tag, HasSubstr("alt=\"Lines "));
    ++plots;
  }
  EXPECT_EQ(plots, 8u); // bow free and clamped, change, twist, temperature, pull, slip, bow
}

TEST_F(Pages, AnotherFormatIsRefusedInASentence)
{
  solver::write_text_file(folder.file("plan.json"),
                          "{\"format\": \"overbend plan\", \"format_number\": 1}");
  EXPECT_THROW(viz::write_pages(folder.file("")), solver::FileError);
  solver::write_text_file(folder.file("plan.json"), "{");
  EXPECT_THROW(viz::write_pages(folder.file("")), solver::FileError);
  EXPECT_THROW(viz::write_pages(folder.file("none")), solver::FileError);
}

// RFC 4648, section 10: test vectors.
TEST(Html, Base64OfTheStandard)
{
  const char *const vectors[][2] = {{"", ""},
                                    {"f", "Zg=="},
                                    {"fo", "Zm8="},
                                    {"foo", "Zm9v"},
                                    {"foob", "Zm9vYg=="},
                                    {"fooba", "Zm9vYmE="},
                                    {"foobar", "Zm9vYmFy"}};
  for (const auto &[bytes, text] : vectors)
    EXPECT_EQ(viz::base64(bytes), text);
}

TEST(Html, AScriptThatEndsItselfIsRefused)
{
  viz::Document page;
  page.scripts = {"var a = '</script>';"};
  EXPECT_THROW(viz::as_html(page), std::invalid_argument);
}

// Two cells in a row share one of their faces: ten are left, of two triangles each. The enclosed
// volume by the divergence theorem is that of the box, so that every face looks outwards.
TEST(Surface, SkinOfTwoCellsIsClosedAndLooksOutwards)
{
  const viz::Surface skin = viz::skin(tests::two_cells());
  ASSERT_EQ(skin.triangles.size(), 3u * 20);
  double volume = 0;
  for (std::size_t t = 0; t < skin.triangles.size(); t += 3) {
    const double *p[3];
    for (std::size_t k = 0; k < 3; ++k)
      p[k] = &skin.nodes[3 * std::size_t(skin.triangles[t + k])];
    volume += (p[0][0] * (p[1][1] * p[2][2] - p[1][2] * p[2][1]) +
               p[0][1] * (p[1][2] * p[2][0] - p[1][0] * p[2][2]) +
               p[0][2] * (p[1][0] * p[2][1] - p[1][1] * p[2][0])) /
              6;
  }
  EXPECT_NEAR(volume, 0.2 * 0.04 * 0.02, 1e-12);
}
