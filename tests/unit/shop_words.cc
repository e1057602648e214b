// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/shop_words.h"

#include "cases/read/read_case.h"
#include "solver/report/step_words.h"
#include "solver/words/places.h"

#include <gtest/gtest.h>

using namespace overbend;
using namespace overbend::solver;

TEST(ShopWords, BowsAndTwistsHaveTheirSignInWords)
{
  EXPECT_EQ(bow_in_words(1.1e-3), "1.10 mm (43 thou) forward");
  EXPECT_EQ(bow_in_words(-0.24e-3), "0.24 mm (9.4 thou) back-bow");
  EXPECT_EQ(bow_in_words(-1e-6), "straight");
  EXPECT_EQ(twist_in_words(0.01), "0.57 deg, treble corner of the nut up");
  EXPECT_EQ(twist_in_words(-0.01), "0.57 deg, bass corner of the nut up");
  EXPECT_EQ(twist_in_words(0), "none");
  EXPECT_EQ(signed_length(1e-4), "+0.10 mm (+3.9 thou)");
  EXPECT_EQ(signed_length(-1e-7), "0.00 mm (0.0 thou)");
}

// 300 mm sticks show 5.2 mm a degree (trade, common practice).
TEST(ShopWords, WindingSticks)
{
  EXPECT_NEAR(over_sticks(3.14159265358979323846 / 180), 5.2e-3, 0.05e-3);
}

TEST(ShopWords, TurnsAreInEighths)
{
  EXPECT_EQ(turns(0.02), "none");
  EXPECT_EQ(turns(0.5), "1/2");
  EXPECT_EQ(turns(1.38), "1 3/8");
  EXPECT_EQ(turns(1.97), "2");
  using overbend::solver::turns_to_make;
  EXPECT_EQ(turns_to_make(-0.25), "let out 1/4 turn");
  EXPECT_EQ(turns_to_make(1), "take up 1 turn");
  EXPECT_EQ(turns_to_make(1.38), "take up 1 3/8 turns");
  EXPECT_EQ(turns_to_make(0.02), "leave it");
}

TEST(ShopWords, ClockFaces)
{
  EXPECT_EQ(clock_face(25 * 60), "0:25");
  EXPECT_EQ(clock_face(-20 * 60), "-0:20");
  EXPECT_EQ(clock_face(16 * 3600), "16:00");
}

TEST(ShopWords, FoldedLinesKeepTheirIndentAndWidth)
{
  EXPECT_EQ(folded("one two three", "- ", "  ", 9), "- one two\n  three\n");
}

TEST(ShopWords, WrapsLongLinesOnlyAndKeepsTheirIndentation)
{
  using overbend::solver::wrapped;
  EXPECT_EQ(wrapped("ab  cd\n  one two three\n\n", 9), "ab  cd\n  one two\n  three\n\n");
  EXPECT_EQ(wrapped("no end", 9), "no end");
}

// By the equal-tempered rule: fret 12 halves the string.
TEST(ShopWords, PlacesAreNamedByTheNearestFret)
{
  const cases::Case c = cases::preset_case("electric");
  EXPECT_EQ(near_fret(c, c.neck.scale_length / 2), "fret 12");
  EXPECT_EQ(near_fret(c, 0), "the nut");
  EXPECT_EQ(near_fret(c, -20e-3), "beyond the nut");
  const auto at = [&](double fret) { return c.neck.scale_length * (1 - std::exp2(-fret / 12)); };
  EXPECT_EQ(near_fret(c, at(0.5)), "between the nut and fret 1");
  EXPECT_EQ(near_fret(c, at(5.5)), "between frets 5 and 6");
  EXPECT_EQ(near_fret(c, at(5.8)), "fret 6");
  EXPECT_EQ(near_fret(c, at(c.neck.frets + 0.5)), "beyond the last fret");
  EXPECT_EQ(at_fret(c, at(6)), "at fret 6");
  EXPECT_EQ(at_fret(c, at(0.5)), "between the nut and fret 1");
  EXPECT_EQ(at_fret(c, -20e-3), "beyond the nut");
  EXPECT_EQ(from_the_nut(-40e-3), "40.0 mm (1.57 in) beyond the nut");
  EXPECT_EQ(probe_place_in_words(c), "fret 7, treble edge, in the glue line");
}
