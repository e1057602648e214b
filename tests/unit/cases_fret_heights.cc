// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/fret_heights.h"
#include "cases/read/read_case.h"
#include "cases/show/to_text.h"
#include "cases/text/units.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// Worn and high frets as a bench types them, and what a case makes of them.
namespace
{
using namespace overbend::cases;
using ::testing::HasSubstr;

constexpr double thou = 25.4e-6, limit = 1.5e-3;

FretHeights heights(const std::string &text)
{
  return parse_fret_heights(text, -limit, limit);
}

std::string problem_of(const std::string &text)
{
  try {
    heights(text);
  } catch (const UnitError &error) {
    return error.problem;
  }
  return "none";
}

Case electric(const std::string &more)
{
  return parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n[readings]\n" + more,
                    "test.toml");
}

TEST(FretHeights, AreReadFretByFretByRangesAndBySides)
{
  EXPECT_TRUE(heights("level").empty());
  const FretHeights h = heights("5: -2 thou, 9-11: 0.1 mm, fret 7 treble: -3 thou");
  ASSERT_EQ(h.size(), 5u);
  EXPECT_NEAR(h.at(5).bass, -2 * thou, 1e-12);
  EXPECT_NEAR(h.at(5).treble, -2 * thou, 1e-12);
  EXPECT_NEAR(h.at(10).bass, 0.1e-3, 1e-12);
  EXPECT_EQ(h.at(7).bass, 0);
  EXPECT_NEAR(h.at(7).treble, -3 * thou, 1e-12);
}

TEST(FretHeights, WhatStandsLaterRefinesWhatStandsBefore)
{
  const FretHeights h = heights("1 to 3: -0.05 mm, 2 bass: -0.1 mm, 3 bass: 0 mm, 3 treble: 0 mm");
  EXPECT_NEAR(h.at(2).bass, -0.1e-3, 1e-12);
  EXPECT_NEAR(h.at(2).treble, -0.05e-3, 1e-12);
  EXPECT_EQ(h.count(3), 0u); // level again
}

TEST(FretHeights, AreRefusedInASentence)
{
  EXPECT_THAT(problem_of("5 -2 thou"), HasSubstr("no fret with its height"));
  EXPECT_THAT(problem_of("0: 1 thou"), HasSubstr("is no fret"));
  EXPECT_THAT(problem_of("5.5: 1 thou"), HasSubstr("is no fret"));
  EXPECT_THAT(problem_of("7-5: 1 thou"), HasSubstr("ends before it begins"));
  EXPECT_THAT(problem_of("5: 1 thou, 4-6: 2 thou"), HasSubstr("fret 5 is given twice"));
  EXPECT_THAT(problem_of("5: -2 mm"), HasSubstr("out of range"));
  EXPECT_THAT(problem_of("5: -2"), HasSubstr("no unit"));
  EXPECT_THAT(problem_of(""), HasSubstr("no fret with its height"));
}

TEST(FretHeights, AreWrittenSoThatTheyComeBack)
{
  for (const std::string text : {"level", "5: -0.05 mm", "5 bass: 0.1 mm, 5 treble: -0.02 mm"})
    EXPECT_EQ(fret_heights_text(heights(text)), text);
  EXPECT_EQ(fret_heights_in_words(heights("5: -2 thou")), "fret 5 -0.05 mm (-2.0 thou)");
}

TEST(FretHeights, OfAFretThatIsNotOnTheBoardAreRefusedAtTheirLine)
{
  try {
    electric("fret_heights = \"22: -1 thou, 23: -2 thou\"\n");
    FAIL() << "fret 23 of 22 was taken";
  } catch (const std::exception &error) {
    EXPECT_THAT(error.what(), HasSubstr("test.toml:5: there is no fret 23"));
  }
}

TEST(FretHeights, SurviveThePrintedCase)
{
  const Case c = electric("edge_on = \"wood\"\nfret_heights = \"5: -2 thou, 7 treble: 0.03 mm\"\n");
  const Case again = parse_case(to_text(c), "printed");
  EXPECT_EQ(again.readings.edge_on, EdgeOn::wood);
  ASSERT_EQ(again.readings.fret_heights.size(), 2u);
  EXPECT_EQ(again.readings.fret_heights.at(5).bass, c.readings.fret_heights.at(5).bass);
  EXPECT_EQ(again.readings.fret_heights.at(7).treble, 0.03e-3);
}

// Trade [T]: a steel-string's edge just clears the bridge's top, 0 to 3 mm; a classical lands lower
// by design; electrics and basses have bridges that are raised and lowered.
TEST(OverBridge, HasARangeOnTheSteelStringOnly)
{
  const Case steel = preset_case("steel-string acoustic");
  ASSERT_TRUE(steel.readings.over_bridge_from && steel.readings.over_bridge_to);
  EXPECT_DOUBLE_EQ(*steel.readings.over_bridge_from, 0);
  EXPECT_DOUBLE_EQ(*steel.readings.over_bridge_to, 3e-3);
  EXPECT_FALSE(steel.readings.over_bridge);
  for (const char *other : {"electric", "classical", "long-scale bass"})
    EXPECT_FALSE(preset_case(other).readings.over_bridge_from) << other;
}

TEST(OverBridge, IsRefusedWhereNothingTellsWhatIsRight)
{
  EXPECT_THROW(electric("over_bridge = \"1 mm\"\n"), std::exception);
  EXPECT_NO_THROW(electric("over_bridge = \"-1 mm\"\nover_bridge_from = \"-4 mm\"\n"
                           "over_bridge_to = \"-1 mm\"\n"));
  EXPECT_THROW(electric("over_bridge_from = \"-4 mm\"\n"), std::exception);
  EXPECT_THROW(electric("over_bridge_from = \"2 mm\"\nover_bridge_to = \"1 mm\"\n"),
               std::exception);
}
} // namespace
