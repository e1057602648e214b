// SPDX-License-Identifier: GPL-3.0-or-later
// A plan for a glue that is not known has three columns, slow, middle and fast line, wherever it is
// told: text, JSON, card, report.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read_case.h"
#include "cases/units.h"
#include "solver/report/plan_text.h"
#include "solver/results/text_file.h"
#include "solver/words/shop_words.h"
#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/pages.h"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::Not;

namespace
{
const char *const speeds[] = {"slow", "middle", "fast"};

cases::Case unknown_glue()
{
  cases::Case c = cases::preset_case("electric");
  c.board_glue.kind.reset();
  c.found.twist = 0.0044;
  return c;
}

// The line of a text that holds some words; empty without one.
std::string line_with(const std::string &text, const std::string &words)
{
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (line.find(words) != std::string::npos)
      return line;
  return "";
}
} // namespace

TEST(ThreeLines, TheTextHasAColumnForEachUnderItsName)
{
  const cases::Case c = unknown_glue();
  auto report = tests::invented_report(c, Verdict::with_cautions, 3);
  report.columns[2].on_target = false;
  const std::string text = solver::plan_text(report);
  const std::string head = line_with(text, "slow line"),
                    clamp = line_with(text, "clamp to, centre");
  ASSERT_FALSE(head.empty());
  ASSERT_FALSE(clamp.empty());
  std::size_t before = 0;
  for (unsigned k = 0; k < 3; ++k) {
    const std::size_t at = head.find(std::string(speeds[k]) + " line");
    ASSERT_NE(at, std::string::npos) << head;
    EXPECT_GT(at, before);
    before = at;
    // Its number stands under its name.
    const auto &column = report.columns[k];
    const std::string number =
        solver::signed_length(column.setting.bow + column.diagnosis.as_built.bow);
    EXPECT_EQ(clamp.substr(at, number.size()), number) << head << "\n" << clamp;
  }
  // Every row of the table keeps the columns apart and under their names.
  const std::size_t from = text.find("slow line"), to = text.find("How to tell which one");
  ASSERT_LT(from, to);
  std::istringstream rows(text.substr(from, to - from));
  std::string row;
  std::getline(rows, row);
  unsigned count = 0;
  while (std::getline(rows, row)) {
    if (row.find_first_not_of(' ') == std::string::npos)
      continue;
    ++count;
    for (const char *speed : speeds) {
      const std::size_t at = head.find(std::string(speed) + " line");
      ASSERT_LT(at, row.size()) << row;
      EXPECT_NE(row[at], ' ') << row;
      EXPECT_EQ(row.substr(at - 2, 2), "  ") << row;
    }
  }
  EXPECT_EQ(count, c.phases.size() + 4);
  const std::string reaches = line_with(text, "reaches the target");
  EXPECT_EQ(reaches.substr(head.find("middle line"), 3), "yes");
  EXPECT_EQ(reaches.substr(head.find("fast line"), 2), "no");
}

// What was tried on a dead line is no setting: neither text nor report gives it as one, and the
// range of settings leaves it out.
TEST(ThreeLines, TextAndReportHaveNoSettingForALineThatDoesNotMove)
{
  const cases::Case c = unknown_glue();
  auto report = tests::invented_report(c, Verdict::with_cautions, 3);
  report.columns[0].limit = solver::Limit::line_does_not_move;
  report.columns[0].setting.bow = -7.77e-3;
  report.columns[0].on_target = false;
  const std::string text = solver::plan_text(report);
  const auto column = line_with(text, "slow line").find("slow line");
  EXPECT_THAT(text, Not(HasSubstr("7.77 mm")));
  for (const char *name : {"clamp to, centre", "clamp to, twist", "largest cord"})
    EXPECT_EQ(line_with(text, name).substr(column, 3), "-  ") << name;
  EXPECT_EQ(line_with(text, "reaches the target").substr(column, 18), "line does not move");

  auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::with_cautions, 3));
  plan["columns"][0]["limit"] = "line does not move";
  const tests::TemporaryFolder folder;
  solver::write_text_file(folder.file("plan.json"), plan.dump());
  viz::write_pages(folder.file(""));
  const std::string page = tests::contents(folder.file("report.html"));
  const std::size_t table = page.find("The glue is not known: the same plan");
  ASSERT_NE(table, std::string::npos);
  const std::string lines = page.substr(table, page.find("</table>", table) - table);
  EXPECT_THAT(lines, Not(HasSubstr("/columns/0/clamp_to")));
  EXPECT_THAT(lines, HasSubstr("/columns/0/limit"));
  EXPECT_THAT(lines, HasSubstr("/columns/2/clamp_to"));
}

TEST(ThreeLines, AKnownGlueHasOne)
{
  cases::Case c = unknown_glue();
  c.board_glue.kind = "white PVA";
  const auto report = tests::invented_report(c, Verdict::with_cautions, 1);
  EXPECT_THAT(solver::plan_text(report), Not(HasSubstr("slow line")));
  const auto json = nlohmann::json::parse(tests::invented_plan(c, Verdict::with_cautions, 1));
  EXPECT_EQ(json["columns"].size(), 1u);
  EXPECT_EQ(json["columns"][0]["line_speed"], "middle");
}

TEST(ThreeLines, TheJsonHasThemInOrderAndNamesTheMainOne)
{
  const cases::Case c = unknown_glue();
  const auto report = tests::invented_report(c, Verdict::with_cautions, 3);
  const auto json = nlohmann::json::parse(tests::invented_plan(c, Verdict::with_cautions, 3));
  ASSERT_EQ(json["columns"].size(), 3u);
  EXPECT_EQ(json["columns"][json["main_column"].get<unsigned>()]["line_speed"], "middle");
  for (unsigned k = 0; k < 3; ++k) {
    EXPECT_EQ(json["columns"][k]["line_speed"], speeds[k]);
    EXPECT_DOUBLE_EQ(json["columns"][k]["clamp_to"]["bow_centre_m"].get<double>(),
                     report.columns[k].setting.bow + report.columns[k].diagnosis.as_built.bow);
    EXPECT_EQ(json["columns"][k]["phases"].size(), c.phases.size());
  }
}

TEST(ThreeLines, CardAndReportNameThemWithTheirNumbers)
{
  const cases::Case c = unknown_glue();
  const tests::TemporaryFolder folder;
  solver::write_text_file(folder.file("plan.json"),
                          tests::invented_plan(c, Verdict::with_cautions, 3));
  viz::write_pages(folder.file(""));
  const auto report = tests::invented_report(c, Verdict::with_cautions, 3);
  for (const char *page : {"bench-card.html", "report.html"}) {
    const std::string html = tests::contents(folder.file(page));
    std::size_t at = 0;
    for (unsigned k = 0; k < 3; ++k) {
      // The speed, then its clamp reading, in the order of the columns.
      const std::string column = "/columns/" + std::to_string(k);
      const std::size_t speed = html.find(column + "/line_speed", at);
      ASSERT_NE(speed, std::string::npos) << page << " " << speeds[k];
      EXPECT_EQ(html.find(speeds[k], speed), html.find('>', speed) + 1) << page;
      const std::size_t clamp = html.find(column + "/clamp_to/bow_centre_m", speed);
      ASSERT_NE(clamp, std::string::npos) << page << " " << speeds[k];
      at = clamp;
    }
  }
  EXPECT_THAT(tests::contents(folder.file("bench-card.html")), HasSubstr("Glue not known"));
}

// What was tried on a line that does not move is not kept within the pull of a cord: no reading to
// clamp to on the card.
TEST(ThreeLines, TheCardHasNoReadingToClampToForALineThatDoesNotMove)
{
  const cases::Case c = unknown_glue();
  auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::with_cautions, 3));
  plan["columns"][0]["limit"] = "line does not move";
  const tests::TemporaryFolder folder;
  solver::write_text_file(folder.file("plan.json"), plan.dump());
  viz::write_pages(folder.file(""));
  const std::string card = tests::contents(folder.file("bench-card.html"));
  EXPECT_THAT(card, Not(HasSubstr("/columns/0/clamp_to/bow_centre_m")));
  EXPECT_THAT(card, HasSubstr("/columns/0/limit"));
  EXPECT_THAT(card, HasSubstr("line does not move"));
  EXPECT_THAT(card, HasSubstr("/columns/2/clamp_to/bow_centre_m"));
}
