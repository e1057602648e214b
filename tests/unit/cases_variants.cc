// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/show/variants.h"

#include "cases/read/read_case.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// What-ifs: entries varied over lists and ranges.
namespace
{
using namespace overbend::cases;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::vector<std::string> values_of(const std::string &text)
{
  return parse_variation(text).values;
}

std::string problem_of(const std::string &text)
{
  try {
    parse_variation(text);
  } catch (const UnitError &error) {
    return error.what();
  }
  return "";
}

const char *const base = "preset = \"electric\" # as bought\n[glue]\nboard = \"white PVA\"\n"
                         "[found]\nbow = \"1 mm\"\n[[lamination]]\nwidth = \"25 mm\"\n"
                         "[[lamination]]\nwidth = \"26 mm\"\n";

std::vector<Variant> variants_of(const std::vector<std::string> &texts)
{
  std::vector<Variation> variations;
  for (const std::string &text : texts)
    variations.push_back(parse_variation(text));
  return variants(parse_document(base, "base.toml"), variations);
}
} // namespace

TEST(Variation, IsAListOrARange)
{
  EXPECT_THAT(values_of("glue.board = white PVA, hot hide"), ElementsAre("white PVA", "hot hide"));
  EXPECT_THAT(values_of("heater.bar_temperature=57..69 degC in 4"),
              ElementsAre("57 degC", "61 degC", "65 degC", "69 degC"));
  EXPECT_THAT(values_of("found.bow = 0.5 mm"), ElementsAre("0.5 mm"));
  EXPECT_THAT(values_of("climate.january = 20 degC, 35 %; 18 degC, 60 %"),
              ElementsAre("20 degC, 35 %", "18 degC, 60 %"));
  EXPECT_THAT(values_of("numerics.resolution = 0.5..1 in 2"), ElementsAre("0.5", "1"));
}

TEST(Variation, SaysWhatIsWrongWithIt)
{
  EXPECT_THAT(problem_of("schedule.hold"), HasSubstr("names no values"));
  EXPECT_THAT(problem_of("schedule.hold ="), HasSubstr("is given no value"));
  EXPECT_THAT(problem_of("schedule.hodl = 2 h"), HasSubstr("did you mean \"schedule.hold\""));
  EXPECT_THAT(problem_of("phase.duration = 2 h"), HasSubstr("no entry `phase.duration`"));
  for (const char *range : {"57..69 degC", "57..x degC in 3", "57..69 degC in 1", "..69 degC in 3"})
    EXPECT_THAT(problem_of(std::string("heater.bar_temperature = ") + range),
                HasSubstr("is no range"))
        << range;
}

TEST(Variants, AreEveryCombinationTheLastChangingFastest)
{
  const auto all = variants_of({"glue.board = hide, white PVA", "schedule.hold = 2 h, 3 h, 4 h"});
  ASSERT_EQ(all.size(), 6u);
  EXPECT_THAT(all[1].values, ElementsAre("hide", "3 h"));
  EXPECT_THAT(all[3].values, ElementsAre("white PVA", "2 h"));
  for (const Variant &one : all) {
    const Case c = parse_case(one.text, "variant.toml");
    EXPECT_EQ(c.board_glue.kind, one.values[0]);
    EXPECT_NEAR(c.schedule.hold, 3600 * std::stod(one.values[1]), 1e-9);
    EXPECT_NEAR(c.found.bow_centre, 1e-3, 1e-12); // what is not varied stays
  }
}

TEST(Variants, KeepWhatStandsSeveralTimesAndRefuseOneEntryTwice)
{
  const std::string text = variants_of({"found.bow = 2 mm"}).front().text;
  EXPECT_THAT(text, HasSubstr("[[lamination]]\nwidth = \"25 mm\"\n\n[[lamination]]"));
  EXPECT_THROW(variants_of({"found.bow = 1 mm", "found.bow = 2 mm"}), UnitError);
}
