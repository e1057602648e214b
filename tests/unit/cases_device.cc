// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/posts.h"
#include "cases/check/check_names.h"
#include "cases/read/read_case.h"
#include "cases/show/to_text.h"

#include <gtest/gtest.h>

// What pulls the neck: posts by name, and the device that the layout of the posts asks for.
namespace
{
using namespace overbend::cases;

Case case_of(const std::string &preset, const std::string &more = "")
{
  return parse_case("preset = \"" + preset + "\"\n[found]\nbow = \"1 mm\"\n" + more, "test.toml");
}

TEST(Posts, AreReadBySideAndNumberAndWrittenSoThatTheyComeBack)
{
  const auto posts = parse_posts("treble 3, Bass 1,bass 2");
  ASSERT_EQ(posts.size(), 3u);
  EXPECT_EQ(posts_named(posts, Side::bass), (std::vector<int>{1, 2}));
  EXPECT_EQ(posts_named(posts, Side::treble), (std::vector<int>{3}));
  EXPECT_EQ(posts_text(posts), "treble 3, bass 1, bass 2");
  EXPECT_EQ(posts_text(parse_posts(posts_text(posts))), posts_text(posts));
  EXPECT_TRUE(parse_posts("middle").empty());
  EXPECT_EQ(posts_text({}), "middle");
}

TEST(Posts, StandOnBothSidesOrInALine)
{
  EXPECT_EQ(posts_on_side(TunerLayout::both_sides, Side::bass, 7), 4u);
  EXPECT_EQ(posts_on_side(TunerLayout::both_sides, Side::treble, 7), 3u);
  EXPECT_EQ(posts_on_side(TunerLayout::bass_line, Side::bass, 6), 6u);
  EXPECT_EQ(posts_on_side(TunerLayout::bass_line, Side::treble, 6), 0u);
  EXPECT_EQ(posts_on_side(TunerLayout::treble_line, Side::treble, 4), 4u);
  EXPECT_EQ(middle_post(3), 2);
  EXPECT_EQ(middle_post(2), 1);
  EXPECT_EQ(middle_post(4), 2);
  EXPECT_EQ(middle_post(1), 1);
}

TEST(Device, PostsInLineAskForABarAcrossTheHeadstock)
{
  EXPECT_EQ(case_of("electric").bench.device, Device::headstock_bar);
  EXPECT_EQ(case_of("long-scale bass").bench.device, Device::headstock_bar);
  EXPECT_EQ(case_of("steel-string acoustic").bench.device, Device::posts);
  EXPECT_EQ(case_of("classical").bench.device, Device::posts);
  EXPECT_EQ(case_of("electric", "[bench]\nposts = \"bass 3\"\n").bench.device, Device::posts);
  EXPECT_EQ(case_of("electric", "[bench]\ndevice = \"strap and bar\"\n").bench.device,
            Device::strap_and_bar);
  EXPECT_EQ(case_of("electric", "[bench]\ndevice = \"by the layout\"\n").bench.device,
            Device::headstock_bar);
}

TEST(Device, IsLeftOpenUnlessItOrPostsOrABlockAreAskedFor)
{
  EXPECT_TRUE(case_of("electric").left_open.device);
  EXPECT_TRUE(case_of("classical", "[bench]\nstop_block = false\n").left_open.device);
  EXPECT_FALSE(case_of("classical", "[bench]\nposts = \"bass 1, treble 1\"\n").left_open.device);
  EXPECT_FALSE(case_of("electric", "[bench]\ndevice = \"strap\"\n").left_open.device);
  EXPECT_FALSE(case_of("electric", "[bench]\nstop_block = true\n").left_open.device);
}

TEST(Device, SurvivesThePrintedCase)
{
  for (const char *bench : {"device = \"strap\"\n", "posts = \"bass 1, bass 2, treble 3\"\n", ""}) {
    const Case c = case_of("classical", std::string("[bench]\n") + bench);
    const Case again = parse_case(to_text(c), "again.toml");
    EXPECT_EQ(again.bench.device, c.bench.device) << bench;
    EXPECT_EQ(posts_text(again.bench.posts), posts_text(c.bench.posts));
  }
}

// Heat beside the clamp is possible where the bar does not lie under what bears on the board.
TEST(Device, TurnedOverItMayBeHeatedBesideTheCradle)
{
  const Case c =
      parse_case("preset = \"electric\"\n[found]\nbow = \"-1 mm\"\n[bench]\nturned_over = "
                 "true\ncradle = \"fret 12\"\n[heater]\nto = \"fret 9\"\niron_to = "
                 "\"fret 9\"\n",
                 "test.toml");
  EXPECT_TRUE(c.bench.turned_over);
}

std::string refused(const std::string &more, unsigned strings)
{
  const Case c = case_of("classical", more);
  KnownNames known = {{c.neck.shaft.wood, c.neck.board.wood}, {}, {c.strings.set}, {c.tuners.kind}};
  known.strings_of = [strings](const std::string &) { return strings; };
  try {
    check_names(c, known);
  } catch (const CaseError &error) {
    return error.what();
  }
  return "";
}

TEST(Device, APostThatTheStringsHaveNotIsRefusedAtItsLine)
{
  EXPECT_EQ(refused("[bench]\nposts = \"bass 3, treble 3\"\n", 6), "");
  EXPECT_EQ(refused("[bench]\nposts = \"bass 2, treble 4\"\n", 6),
            "test.toml:5: there is no post treble 4: a set of 6 strings has 3 on that side; count "
            "from the nut");
}
} // namespace
