// SPDX-License-Identifier: GPL-3.0-or-later
// A plan.json that a disk or a hand has damaged: pages, or a sentence, and never anything else.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "solver/results/file_error.h"
#include "solver/results/text_file.h"
#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/page/plan_file.h"
#include "viz/report/pages.h"

#include <cstdlib>

using namespace overbend;
using ::testing::HasSubstr;
using viz::Json;

namespace
{
// Without the plotting program: it would be asked thousands of times.
class DamagedPlan : public ::testing::Test
{
protected:
  void SetUp() override
  {
    path = std::getenv("PATH");
    setenv("PATH", folder.file("nothing").c_str(), 1);
    cases::Case c = cases::preset_case("electric");
    c.board_glue.kind = "white PVA";
    plan = Json::parse(tests::invented_plan(c, solver::Verdict::with_cautions));
    places = plan.flatten();
  }
  void TearDown() override { setenv("PATH", path.c_str(), 1); }

  // Empty: pages were written.
  std::string sentence(const std::string &json) const
  {
    solver::write_text_file(folder.file("plan.json"), json);
    try {
      viz::write_pages(folder.file(""));
    } catch (const solver::FileError &error) {
      return error.what();
    }
    return "";
  }

  tests::TemporaryFolder folder;
  std::string path;
  Json plan, places;
};
} // namespace

TEST_F(DamagedPlan, AValueOfAnotherKindIsASentence)
{
  ASSERT_EQ(sentence(plan.dump()), "");
  std::size_t number = 0, refused = 0;
  const std::vector<Json> wrong = {nullptr, "text", -7, 1.5, true, Json::array(), Json::object()};
  for (const auto &[place, value] : places.items()) {
    // Every seventh, each with another wrong value: a page takes ten milliseconds.
    if (++number % 7 != 0)
      continue;
    Json damaged = plan;
    damaged.at(Json::json_pointer(place)) = wrong[number / 7 % wrong.size()];
    refused += sentence(damaged.dump()).empty() ? 0 : 1;
  }
  EXPECT_GT(refused, 0u);
}

TEST_F(DamagedPlan, WhatIsMissingIsNamed)
{
  plan["verdict"].erase("refused");
  EXPECT_THAT(sentence(plan.dump()), HasSubstr("plan.json: has nothing at /verdict/refused; "));
  plan["verdict"]["refused"] = "yes";
  EXPECT_THAT(sentence(plan.dump()),
              HasSubstr("holds another kind of value at /verdict/refused than it should; "));
}

TEST_F(DamagedPlan, ANumberBeyondAllBoundsAndAFormatOfAnotherKindAreSentences)
{
  EXPECT_THAT(sentence("{\"format\": \"overbend plan\", \"format_number\": 1e999}"),
              HasSubstr("is not a plan"));
  EXPECT_THAT(sentence("{\"format\": 5, \"format_number\": \"5\"}"), HasSubstr("is not a plan"));
  EXPECT_THAT(sentence("[]"), HasSubstr("is not a plan"));
  EXPECT_THAT(sentence(std::string(100000, '[')), HasSubstr("is not a plan"));
}

TEST_F(DamagedPlan, ItLeavesThePagesOfBefore)
{
  ASSERT_EQ(sentence(plan.dump()), "");
  const std::string card = tests::contents(folder.file("bench-card.html"));
  plan.erase("stages");
  plan["main_column"] = 99;
  EXPECT_NE(sentence(plan.dump()), "");
  EXPECT_EQ(tests::contents(folder.file("bench-card.html")), card);
}
