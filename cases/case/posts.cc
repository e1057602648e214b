// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/posts.h"

#include "cases/text/suggest.h"
#include "cases/text/units.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
constexpr int most_posts = 12; // on one side, of any instrument
constexpr std::size_t most_a_side = 3;
constexpr const char *middle = "middle";
constexpr const char *how_to_write =
    "write one to three posts a side, counted from the nut, such as \"bass 2, treble 2\", or "
    "\"middle\"";

const char *word_of(Side side)
{
  return side == Side::bass ? "bass" : "treble";
}

bool same(const Post &a, const Post &b)
{
  return a.side == b.side && a.number == b.number;
}

Post parse_post(const std::string &item)
{
  const std::string plain = plain_word(item);
  for (const Side side : {Side::bass, Side::treble}) {
    const std::string word = std::string(word_of(side)) + " ";
    if (plain.rfind(word, 0) != 0)
      continue;
    const std::string number = trimmed(plain.substr(word.size()));
    const bool digits = !number.empty() && number.size() <= 2 &&
                        number.find_first_not_of("0123456789") == std::string::npos;
    const int post = digits ? std::stoi(number) : 0;
    if (post >= 1 && post <= most_posts)
      return {side, post};
  }
  throw UnitError("\"" + item.substr(0, 60) + "\" is no post", how_to_write);
}
} // namespace

std::vector<Post> parse_posts(const std::string &text)
{
  std::vector<Post> posts;
  if (plain_word(trimmed(text)) == middle)
    return posts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(',', at), text.size());
    const Post post = parse_post(trimmed(text.substr(at, comma - at)));
    at = comma + 1;
    if (std::any_of(posts.begin(), posts.end(), [&](const Post &p) { return same(p, post); }))
      throw UnitError("post " + posts_text({post}) + " is named twice", "keep one of the two");
    posts.push_back(post);
    if (posts_named(posts, post.side).size() > most_a_side)
      throw UnitError(std::string("more than three posts are named on the ") + word_of(post.side) +
                          " side",
                      how_to_write);
  }
  return posts;
}

std::string posts_text(const std::vector<Post> &posts)
{
  std::string text;
  for (const Post &post : posts)
    text += (text.empty() ? "" : ", ") + std::string(word_of(post.side)) + " " +
            std::to_string(post.number);
  return text.empty() ? middle : text;
}

std::optional<Side> only_side(TunerLayout layout)
{
  if (layout == TunerLayout::both_sides)
    return std::nullopt;
  return layout == TunerLayout::bass_line ? Side::bass : Side::treble;
}

unsigned posts_on_side(TunerLayout layout, Side side, unsigned strings)
{
  if (const auto only = only_side(layout))
    return *only == side ? strings : 0;
  return side == Side::bass ? (strings + 1) / 2 : strings / 2;
}

std::vector<int> posts_named(const std::vector<Post> &posts, Side side)
{
  std::vector<int> numbers;
  for (const Post &post : posts)
    if (post.side == side)
      numbers.push_back(post.number);
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

int middle_post(unsigned count)
{
  return static_cast<int>((count + 1) / 2);
}
} // namespace overbend::cases
