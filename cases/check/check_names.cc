// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/check_names.h"

#include "cases/case/posts.h"
#include "cases/check/checking.h"
#include "cases/text/suggest.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
// The key by its place in the declarations: strips are numbered in a case.
std::string without_number(const std::string &key)
{
  const auto open = key.find('['), close = key.find(']');
  return open == std::string::npos ? key : key.substr(0, open) + key.substr(close + 1);
}

void check_name(const Case &result, const std::string &key, const std::string &name,
                const KnownNames &all)
{
  const NamesFor names = names_for(without_number(key), all).value();
  const auto same = [&](const std::string &other) { return plain_word(other) == plain_word(name); };
  if (std::any_of(names.known->begin(), names.known->end(), same))
    return;
  refuse(result, key, key + ": there is no " + names.thing + " \"" + name + "\" in the tables",
         suggestion(name, *names.known, names.things));
}

void check_posts(const Case &result, unsigned strings)
{
  for (const Post &post : result.bench.posts) {
    const unsigned count = posts_on_side(result.tuners.layout, post.side, strings);
    if (static_cast<unsigned>(post.number) > count)
      refuse(result, "bench.posts",
             "there is no post " + posts_text({post}) + ": a set of " + std::to_string(strings) +
                 " strings has " + std::to_string(count) + " on that side",
             "count from the nut");
  }
}
} // namespace

std::optional<NamesFor> names_for(const std::string &key, const KnownNames &known)
{
  const auto is_one_of = [&](std::initializer_list<const char *> keys) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
  };
  if (is_one_of({"shaft.wood", "board.wood", "headstock.wood", "lamination.wood"}))
    return NamesFor{&known.woods, "wood", "woods"};
  if (is_one_of({"glue.board", "glue.scarf"}))
    return NamesFor{&known.glues, "glue", "glues"};
  if (is_one_of({"strings.set", "strings.found_set"}))
    return NamesFor{&known.string_sets, "set of strings", "sets"};
  if (key == "tuners.kind")
    return NamesFor{&known.tuners, "tuner", "tuners"};
  return {};
}

void check_names(const Case &result, const KnownNames &known)
{
  const auto check = [&](const std::string &key, const std::string &name) {
    check_name(result, key, name, known);
  };
  check("shaft.wood", result.neck.shaft.wood);
  check("board.wood", result.neck.board.wood);
  check("headstock.wood", result.neck.headstock.piece.wood);
  const std::vector<Lamination> &strips = result.neck.laminations;
  for (std::size_t i = 0; i < strips.size(); ++i)
    check("lamination[" + std::to_string(i + 1) + "].wood", strips[i].piece.wood);
  if (result.board_glue.kind)
    check("glue.board", *result.board_glue.kind);
  if (result.scarf_glue.kind)
    check("glue.scarf", *result.scarf_glue.kind);
  check("strings.set", result.strings.set);
  check("strings.found_set", result.strings_found.set);
  check("tuners.kind", result.tuners.kind);
  if (known.strings_of)
    check_posts(result, known.strings_of(result.strings_found.set));
}
} // namespace overbend::cases
