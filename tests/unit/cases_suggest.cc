// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/suggest.h"

#include <gtest/gtest.h>

namespace
{
using namespace overbend::cases;

TEST(Suggest, DistanceCountsSingleLetters)
{
  EXPECT_EQ(edit_distance("", "abc"), 3);
  EXPECT_EQ(edit_distance("relief", "releif"), 1); // a swap is one slip
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3);
  EXPECT_EQ(edit_distance("bow", "bow"), 0);
}

TEST(Suggest, NearestWordMustBeNear)
{
  EXPECT_EQ(nearest_word("scale_lenght", {"scale_length", "frets"}), "scale_length");
  EXPECT_EQ(nearest_word("Bolt On", {"heel", "bolt-on"}), "bolt-on");
  EXPECT_EQ(nearest_word("xyzzy", {"heel", "bolt-on"}), "");
  EXPECT_EQ(nearest_word("", {"heel"}), "");
  EXPECT_EQ(nearest_word(std::string(1000, 'x'), {"heel"}), "");
}

TEST(Suggest, FarWordsGetTheList)
{
  EXPECT_EQ(suggestion("xyzzy", {"flat", "tilted", "scarf"}, "words"),
            "known words are \"flat\", \"tilted\" and \"scarf\"");
  EXPECT_EQ(suggestion("scraf", {"flat", "tilted", "scarf"}, "words"), "did you mean \"scarf\"?");
}
} // namespace
