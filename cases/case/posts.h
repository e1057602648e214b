// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>

// The posts that the cords are tied to, by name: "bass 2, treble 2". Numbers count from the nut.
namespace overbend::cases
{
// One to three posts a side, each named once; "middle": none named. Throws UnitError.
std::vector<Post> parse_posts(const std::string &text);

// The text that is read back as the same posts; "middle" for none.
std::string posts_text(const std::vector<Post> &posts);

// How many of the posts of `strings` strings stand on a side. Posts on both sides: the bass side
// has the odd one.
unsigned posts_on_side(TunerLayout layout, Side side, unsigned strings);

// The named ones of a side, nearest to the nut first.
std::vector<int> posts_named(const std::vector<Post> &posts, Side side);

// The side all posts stand on; empty for posts on both sides.
std::optional<Side> only_side(TunerLayout layout);

// Number of the post that is pulled on when none is named: the middle one of a row of `count`, of
// two middle ones the one nearer to the nut.
int middle_post(unsigned count);
} // namespace overbend::cases
